#!/usr/bin/env python3
"""The replay of tests/bench/cold_replay_bench.cc in vectorised numpy: the same sums, hour by hour, for many
plantings at once. Checks that both come to the same figures and prints how much faster the engine is, in the
engine's own timer and as whole processes by turns.

  python3 tests/bench/replay_numpy.py build/bench/tenwinters_bench

Needs numpy (Debian: python3-numpy). Exit status 1 if the figures differ, everything takes more than two
seconds, or the engine is less than 20 times as fast.
"""
import json
import math
import os
import subprocess
import sys
import tempfile
import time

import numpy as np

from figures import keep_figure

TISSUES = 5
MONTH_START = [0, 31, 62, 92, 123, 153, 184, 215, 243, 274, 304, 335, 365]
NEAREST = {
    'florida': ['gulf', 'texas', 'other', 'california', 'arizona'],
    'gulf': ['florida', 'texas', 'other', 'california', 'arizona'],
    'texas': ['gulf', 'florida', 'other', 'arizona', 'california'],
    'arizona': ['california', 'texas', 'other', 'florida', 'gulf'],
    'california': ['arizona', 'other', 'gulf', 'texas', 'florida'],
    'other': ['gulf', 'florida', 'texas', 'california', 'arizona'],
}
WARM = 32767


def tenths(value):
    return int(math.floor(abs(value) * 10 + 0.5)) * (1 if value >= 0 else -1)


def scaled(values, permille):
    """values * permille / 1000 to the nearest, halves away from zero."""
    product = values * permille
    return np.sign(product) * ((np.abs(product) + 500) // 1000)


def months(window):
    return (window[1] - window[0] + 12) % 12 + 1


def season(traits, region, share):
    """Ripening and heat of one cultivar: start and length in months of the season, and what it needs."""
    listed = {one['region']: one['window'] for one in traits['ripening']}
    window = next(listed[r] for r in [region] + NEAREST[region] if r in listed)
    if region not in listed:
        return None  # its window would be moved by heat; not part of the sample
    bloom = traits['bloom']
    middle = bloom[0] - 1 + (months(bloom) - 1) // 2
    first, length = window[0] - 1, months(window)
    if length >= 11:
        heat_months = 12
    else:
        wait = (first - middle + 24) % 12
        heat_months = wait + (12 if wait < 3 else 0) + length - 1
    need = int(traits['heat_units_c'][0] * share + 0.5)
    return {'ripe': (first + 6) % 12, 'length': length, 'heat_from': (middle + 1) % 12, 'heat_months': heat_months,
            'need': need, 'bloom': (bloom[0] + 5) % 12, 'bloom_months': months(bloom)}


def readings(steps):
    """Hour by hour from the steps between hours; null is a warm hour."""
    hours, now = [], 0
    for step in steps:
        now = 0 if step is None else now + step
        hours.append(WARM if step is None else now)
    return hours


def winters_of(columns):
    """The winters with their spells, row by row, from the columns that the page is given."""
    spell_keys = ('day', 'start_hour', 'hardening', 'windy', 'tenths_c')
    spells = [dict(zip(spell_keys, row)) for row in zip(*(columns.get(key, []) for key in spell_keys))]
    winters = []
    for year, count, heat_units in zip(columns['year'], columns['spells'], columns['heat_units']):
        day = hardening = 0  # each stands there as the step from the spell before
        for spell in spells[:count]:
            day, hardening = day + spell['day'], hardening + spell['hardening']
            spell.update(day=day, hardening=hardening)
        winters.append({'year': year, 'heat_units': heat_units, 'spells': spells[:count]})
        del spells[:count]
    return winters


def traits_of(catalog, cultivar):
    """A cultivar's own traits, and its type's for the rest."""
    of_type = next(one['traits'] for one in catalog['types'] if one['id'] == cultivar['type'])
    return {**of_type, **cultivar['traits']}


def freezes(winter):
    """The winter's freezes, coldest first."""
    pieces = []
    for spell in winter['spells']:
        hours, first, frozen, thawed = readings(spell['tenths_c']), 0, False, True
        cuts = []
        for i, air in enumerate(hours):
            frost = air <= 0
            if frost and thawed and frozen:
                cuts.append((first, i))
                first = i
            frozen, thawed = frozen or frost, not frost
        cuts.append((first, len(hours)))
        for start, end in cuts:
            piece = np.array(hours[start:end], dtype=np.int32)
            clock = spell['start_hour'] + start
            nights = {}
            for i, air in enumerate(piece):
                if air != WARM:
                    night = (clock + i + 12) // 24
                    nights[night] = min(nights.get(night, WARM), int(air))
            day = spell['day'] + clock // 24
            month = max(m for m in range(12) if day >= MONTH_START[m] or m == 0)
            pieces.append({'hours': piece, 'low': int(piece.min()), 'day': day, 'month': month,
                           'h': (spell['hardening'] + 5) // 10 * 10, 'windy': spell['windy'],
                           'nights': np.array(sorted(nights.values()))})
    return sorted(pieces, key=lambda piece: piece['low'])


class Peer:
    """All sampled plantings of one place at ages 1 to 10, as one long array."""

    def __init__(self, catalog, place, sample, nights):
        self.model = {name: fact[0] for name, fact in catalog['cold_model'].items()}
        by_id = {kind: {one['id']: one for one in catalog[kind]} for kind in ('cultivars', 'rootstocks', 'protections')}
        self.winters = [(freezes(winter), np.array(winter['heat_units'])) for winter in winters_of(place['winters']['winters'])]
        self.nights = nights
        self.region = place['region']
        keep, rows = [], []
        grown, young = int(self.model['grown_years'] + 0.5), tenths(self.model['young_c'])
        for one in sample:
            traits = traits_of(catalog, by_id['cultivars'][one['cultivar']])
            stock, protection = by_id['rootstocks'][one['rootstock']], by_id['protections'][one['protection']]
            when = season(traits, self.region, self.model['heat_share'])
            if when is None:
                continue
            keep.append(one)
            bearing = int(traits['bearing_age_years'][0] * 100 + 0.5)
            height = traits['height_m'][0] * stock['size_share'][0]
            covers = ['leaf', 'wood', 'trunk', 'fruit', 'bloom']
            for age in range(1, 11):
                bears = [min(max(a * 100 - bearing + 100, 0), 100) / 100 for a in (age, age + 1)]
                reach = protection['fits_tall_trees'] or height * age <= self.model['reach_m'] * self.model['full_height_years']
                rows.append({
                    'hard': [min(tenths(c['hardened'][0]), tenths(c['unhardened'][0])) for c in traits['cold']],
                    'soft': [tenths(c['unhardened'][0]) for c in traits['cold']],
                    'shift': (2 * young * (grown - age) + grown - 1) // (2 * (grown - 1)) if age < grown else 0,
                    'gain': tenths(stock['cold_gain_c'][0]), 'warmer': tenths(one['warmer_c']),
                    'still': tenths(protection['gain_c'][0]) if reach else 0,
                    'windy': tenths(protection['windy_gain_c'][0]) if reach else 0,
                    'covers': [word in protection['covers'] for word in covers],
                    'free': protection['minutes_per_night'][0] <= 0,
                    'bears': bears[0], 'fruit': bears[0] > 0, 'bloom': bears[1] > 0, 'when': when})
        self.keep = keep
        self.size = len(rows)
        column = lambda name, kind=np.int32: np.array([row[name] for row in rows], dtype=kind)
        self.hard, self.soft = column('hard').T, column('soft').T
        self.shift, self.gain, self.warmer = column('shift'), column('gain'), column('warmer')
        self.still, self.windy = column('still'), column('windy')
        self.covers, self.free = column('covers', bool).T, column('free', bool)
        self.bears, self.fruit, self.bloom = column('bears', float), column('fruit', bool), column('bloom', bool)
        when = lambda name: np.array([row['when'][name] for row in rows], dtype=np.int32)
        self.ripe, self.length = when('ripe'), when('length')
        self.heat_from, self.heat_months, self.need = when('heat_from'), when('heat_months'), when('need')
        self.bloom_from, self.bloom_months = when('bloom'), when('bloom_months')
        starts = np.array(MONTH_START)
        last = self.ripe + self.length
        self.start = starts[self.ripe]
        self.end = starts[last % 12] + np.where(last >= 12, starts[12], 0)

    def killed(self, hours, threshold):
        depth = np.minimum(threshold, 50)[:, None] - hours[None, :]
        dose = np.maximum(depth, 0).sum(axis=1)
        ratio = dose / float(4 * tenths(self.model['dose_width_c']))
        grown = ratio.copy()
        for _ in range(int(self.model['dose_power'] + 0.5) - 1):
            grown *= ratio
        return (grown / (grown + 1)).astype(np.float32).astype(float)  # the engine's tables are in single precision

    def play(self):
        """Means over winters of the six shares, for every planting and age."""
        width, margin = tenths(self.model['dose_width_c']), tenths(self.model['call_margin_c'])
        means = np.zeros((6, self.size))
        for pieces, heat in self.winters:
            left = np.ones((TISSUES, self.size))
            budget, worked = np.full(self.size, float(self.nights)), np.zeros(self.size)
            for piece in pieces:
                air = 0 if piece['windy'] else self.warmer
                points = self.soft + scaled(self.hard - self.soft, piece['h']) - air
                points[:3] += self.shift - scaled(self.gain, piece['h'])
                day = piece['day']
                on_tree = np.where(day < self.start, 1.0, np.where(day >= self.end, 0.0, (self.end - day) / (self.end - self.start)))
                on_tree = np.where(self.length >= 11, 0.5, on_tree)
                out = (piece['month'] - self.bloom_from + 12) % 12 < self.bloom_months
                stake = np.ones((TISSUES, self.size))
                stake[3] = np.where(self.fruit, on_tree, 0)
                stake[4] = np.where(self.bloom & out, 1.0 / self.bloom_months, 0)
                cover = self.windy if piece['windy'] else self.still
                limit = np.where(self.covers & (stake > 0), points + margin, -10000).max(axis=0)
                called = (piece['nights'][None, :] <= limit[:, None]).sum(axis=1)
                works = (cover > 0) & ~self.free & (called > 0)
                done = np.where(works, np.minimum(budget, called), 0.0)
                budget -= done
                worked += done
                share = np.where(works, done / np.maximum(called, 1), np.where((cover > 0) & self.free, 1.0, 0.0))
                for k in range(TISSUES):
                    bare = self.killed(piece['hours'], points[k] + width)
                    covered = np.where(self.covers[k], self.killed(piece['hours'], points[k] + width - cover), bare)
                    left[k] *= 1 - stake[k] * (bare + share * (covered - bare))
            span = np.arange(24)[None, :]
            sums = np.where(span < self.heat_months[:, None], heat[(self.heat_from[:, None] + span) % 12], 0).sum(axis=1)
            ripe = sums >= self.need
            kept = left[2] * left[1]
            means += np.array([left[2], kept, kept * (1 - self.model['leaf_crop_share'] * (1 - left[0])) * left[4],
                               np.where(ripe, left[3], 0), np.where(ripe, 1 - left[3], 0), worked])
        return means / len(self.winters)

    def ten_years(self, means):
        trees = self.size // 10
        means, bears = means.reshape(6, trees, 10), self.bears.reshape(trees, 10)
        regrowth = int(self.model['regrowth_years'] + 0.5)
        alive, whole, crop = np.ones(trees), np.ones(trees), np.ones(trees)
        waiting = [np.zeros(trees) for _ in range(4)]
        harvests, lost, worked, lived = (np.zeros(trees) for _ in range(4))
        for age in range(10):
            survives, keeps, following, kept, frozen, nights = means[:, :, age]
            harvests += bears[:, age] * crop * kept
            lost += bears[:, age] * crop * frozen
            worked += alive * nights
            lived += alive
            cut = (whole + sum(waiting)) * (survives - keeps)
            standing = whole + waiting[1]
            waiting = [np.zeros(trees), waiting[2] * keeps, waiting[3] * keeps, np.zeros(trees)]
            whole, crop = standing * keeps, standing * following
            if regrowth:
                waiting[regrowth] = waiting[regrowth] + cut
            else:
                whole, crop = whole + cut, crop + cut
            alive = alive * survives
        return np.array([alive, harvests, worked / lived, lost]).T


ROUNDS = 5


def engine_run(program, pattern, environment=None):
    """Google Benchmark's figures for the matching benchmarks, by name."""
    with tempfile.TemporaryDirectory() as folder:
        report = os.path.join(folder, 'report.json')
        subprocess.run([program, '--benchmark_filter=' + pattern, '--benchmark_out_format=json', '--benchmark_out=' + report],
                       check=True, stdout=subprocess.DEVNULL, env={**os.environ, **(environment or {})})
        with open(report, encoding='utf-8') as file:
            return {one['name']: one for one in json.load(file)['benchmarks']}


def named(measured, start):
    return next(one for name, one in measured.items() if name.startswith(start))


def peers(dump):
    with open(dump, encoding='utf-8') as file:
        inputs = json.load(file)
    for place in inputs['office']['places']:
        sample = [one for one in inputs['sample'] if one['place'] == place['id']]
        yield place['id'], Peer(inputs['catalog'], place, sample, inputs['nights'])


def cold_hours(peer):
    return sum(len(piece['hours']) for pieces, _ in peer.winters for piece in pieces)


def play_one(dump, place):
    """A whole process of the peer: reads the inputs, replays one place. Prints its tree-hours."""
    for name, peer in peers(dump):
        if name == place:
            peer.ten_years(peer.play())
            print(peer.size * cold_hours(peer))


def wall(command):
    began = time.perf_counter()
    output = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return time.perf_counter() - began, output


def paired(program, dump, place, number, tree_hours):
    """Whole processes by turns, start to end, so that both meet the same state of the machine."""
    ratios = []
    for _ in range(ROUNDS):
        numpy_s, printed = wall([sys.executable, __file__, '--play', dump, place])
        engine_s, _ = wall([program, f'--benchmark_filter=ColdReplayOnce/{number}/'])
        ratios.append((tree_hours / engine_s) / (float(printed) / numpy_s))
    ratios.sort()
    print(f'  whole processes, {ROUNDS} pairs, reading their inputs included: {ratios[ROUNDS // 2]:.0f} times numpy '
          f'({ratios[0]:.0f} to {ratios[-1]:.0f})')
    return ratios[ROUNDS // 2]


def main():
    if len(sys.argv) == 4 and sys.argv[1] == '--play':
        play_one(sys.argv[2], sys.argv[3])
        return
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    program, failures = sys.argv[1], []
    with tempfile.TemporaryDirectory() as folder:
        dump = os.path.join(folder, 'dump.json')
        measured = engine_run(program, 'ColdReplay(All|Each)|PlainHours', {'TENWINTERS_BENCH_DUMP': dump})
        limit = named(measured, 'PlainHours')['tree_hours_per_s']
        for number, (place, peer) in enumerate(peers(dump)):
            began = time.perf_counter()
            figures = peer.ten_years(peer.play())
            seconds = time.perf_counter() - began
            difference = float(np.abs(figures - np.array([one['figures'] for one in peer.keep])).max())
            hours = cold_hours(peer)
            rate = peer.size * hours / seconds
            everything, each = (named(measured, f'ColdReplay{which}/{number}') for which in ('All', 'Each'))
            milliseconds = everything['real_time']
            tree_hours = everything['plantings'] * 10 * hours
            print(f"{place}: {everything['plantings']:.0f} plantings at ages 1 to 10 through {everything['winters']:.0f} winters, "
                  f'{hours} cold hours each')
            print(f"  engine, everything: {milliseconds:.0f} ms, {everything['tree_hours_per_s']:.3g} tree-hours a second, "
                  f"{everything['tree_hours_per_s'] / rate:.0f} times numpy")
            print(f"  engine, nothing remembered between plantings: {each['tree_hours_per_s']:.3g} tree-hours a second, "
                  f"{each['tree_hours_per_s'] / rate:.0f} times numpy")
            print(f'  numpy, {peer.size} trees: {seconds:.2f} s, {rate:.3g} tree-hours a second; '
                  f'largest difference of any figure {difference:.2g}')
            keep_figure(f'{place}: replay of everything', milliseconds, 2000, 'ms', 'limit')
            keep_figure(f'{place}: a tree-hour', 1e9 / everything['tree_hours_per_s'], 1e9 / rate, 'ns', 'numpy, at most 0.05')
            ratio = paired(program, dump, place, number, tree_hours)
            print(f'  the limit of a loop that looks at every hour of every tree, all in the nearest cache: {limit:.3g} '
                  f'tree-hours a second on this core, {tree_hours / limit * 1000:.0f} ms for everything')
            if difference > 1e-9:
                failures.append(f'{place}: figures differ by {difference:.2g}')
            if milliseconds > 2000:
                failures.append(f'{place}: everything takes {milliseconds:.0f} ms, more than 2000')
            if everything['tree_hours_per_s'] < 20 * rate or ratio < 20:
                failures.append(f'{place}: less than 20 times numpy')
    if failures:
        sys.exit('\n'.join(failures))


if __name__ == '__main__':
    main()
