// The calendar's form: trees, the year, how often, a reminder.
import {el} from './dom.js';
import {say, count} from './say.js';
import {choose, measure, placeField, press, treesField, yardField} from './screen_form.js';

const reminders = ['0', '1', '3', '7', '14'];

export const calendarScreen = {
  own: ['year', 'once', 'alarm'],
  form(state, go, address) {
    const own = (change) => go({own: {...state.own, ...change}});
    return [
      placeField(state, go), yardField(state, address),
      treesField(say('screens.trees'), state.trees, 12, (trees) => go({trees})),
      measure('year', say('screens.calendar.year'), this.year(state), {least: 1900, most: 9998}, (year) => own({year: String(year)})),
      choose('repeat', say('screens.calendar.repeat'), [['', say('screens.calendar.every_year')], ['yes', say('screens.calendar.one_year')]], state.own.once ?? '', (once) => own({once})),
      choose('remind', say('screens.calendar.remind'),
             reminders.map((n) => [n, n === '0' ? say('screens.calendar.remind_none') : count('screens.calendar.remind_days', Number(n))]), this.alarm(state), (alarm) => own({alarm: alarm === '0' ? '' : alarm})),
    ];
  },
  year(state) { return /^[1-9][0-9]{3}$/.test(state.own.year ?? '') ? Number(state.own.year) : new Date().getFullYear(); },
  alarm(state) { return reminders.includes(state.own.alarm) ? state.own.alarm : '0'; },
  request(state) {
    if (state.trees.length === 0) return null;
    return {screen: 'calendar', trees: state.trees.slice(0, 12), year: Math.min(this.year(state), 9998), yearly: !state.own.once, alarm_days: Number(this.alarm(state)),
            today: (new Date().getMonth() + 1) * 100 + new Date().getDate()};
  },
  nothing: () => say('calendar.choose'),
  // The file is made here, from what the engine wrote; no server is asked.
  tools(shown) {
    return [press('download', say('screens.calendar.download'), () => {
      const link = el('a', {href: URL.createObjectURL(new Blob([shown.ics], {type: 'text/calendar;charset=utf-8'})), download: shown.file});
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href));
    })];
  },
  note: () => say('screens.calendar.file_note'),
};
