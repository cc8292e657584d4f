// Compare: two to four trees.
import {say} from './say.js';
import {placeField, treesField, yardField} from './screen_form.js';

export const compareScreen = {
  own: [],
  form(state, go, address) {
    return [placeField(state, go), yardField(state, address), treesField(say('screens.trees'), state.trees.slice(0, 4), 4, (trees) => go({trees}))];
  },
  request(state) {
    const trees = state.trees.slice(0, 4);
    return trees.length < 2 ? null : {screen: 'compare', trees};
  },
  nothing: () => say('screens.compare.choose'),
};
