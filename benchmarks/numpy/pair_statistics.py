#!/usr/bin/env python3
"""Pair statistics of two raw frames, worked out with numpy and scipy from docs/method/pair-statistics.md.

Shares no code with the program that it is compared with. Reads a JSON description beside two files of
16-bit little-endian samples, prints JSON. Times are the shortest of several runs, in seconds.

    pair_statistics.py PAIR.json [--times 5] [--no-tiles]
"""
import argparse
import json
import pathlib
import sys
import time

import numpy as np
from scipy import stats

LEANING_TILES = 100
LEAST_TILES_PER_BIN = 16
BINS_PER_STOP = 3
RESTLESS_SIGMA = 5.5
LEAST_TILES_FOR_MEDIAN, ENOUGH_FOR_MEDIAN = 5, 512
SIGMAS_IN_SCENE = 25


def plain_sums(a, b, cell):
    """Section 1: for each site of the cell, row by row: n, sum a, sum b, sum (a - b)^2."""
    rows, columns = cell
    sites = []
    for y in range(rows):
        for x in range(columns):
            # Strided views; a conversion to signed numbers so that the difference may be negative.
            p, q = a[y::rows, x::columns], b[y::rows, x::columns]
            d = np.subtract(p, q, dtype=np.int32).astype(np.int64)
            sites.append([p.size, int(p.sum(dtype=np.int64)), int(q.sum(dtype=np.int64)), int(np.einsum("ij,ij->", d, d))])
    return sites


class Tiles:
    """Section 2 and 3: samples of one plane by tile and row of the tile, and their sums."""

    def __init__(self, a, b, planes, plane, cell, tile):
        cell_rows, cell_columns = cell
        tile_rows, tile_columns = tile
        self.down, self.across = a.shape[0] // tile_rows, a.shape[1] // tile_columns
        height, width = self.down * tile_rows, self.across * tile_columns
        shape = (self.down, tile_rows, self.across, tile_columns)
        a = a[:height, :width].reshape(shape)
        b = b[:height, :width].reshape(shape)
        inside = np.tile(planes == plane, (tile_rows // cell_rows, tile_columns // cell_columns))

        count = self.down * self.across
        self.sum = np.zeros(count, np.int64)
        self.difference = np.zeros(count, np.int64)
        self.dd = np.zeros(count)
        self.sd = np.zeros(count)
        self.ss = np.zeros(count)
        self.largest = np.zeros(count, np.int64)
        self.smallest = np.full(count, 65535, np.int64)
        self.samples = int(inside.sum())
        self.freedom = self.samples - int(inside.any(axis=1).sum())
        # Rows of the tile that look alike are taken together; there are at most six kinds.
        kinds, of_row = np.unique(inside, axis=0, return_inverse=True)
        for kind, where in enumerate(kinds):
            if not where.any():
                continue
            p = a[:, of_row.ravel() == kind][..., where]
            q = b[:, of_row.ravel() == kind][..., where]
            s = np.add(p, q, dtype=np.int32).astype(np.int64)
            d = np.subtract(p, q, dtype=np.int32).astype(np.int64)
            n = s.shape[-1]
            row_s, row_d = s.sum(axis=-1), d.sum(axis=-1)

            def moment(x, y, row_x, row_y):
                return (np.einsum("tyux,tyux->tu", x, y) - np.einsum("tyu,tyu->tu", row_x, row_y) / n).ravel()

            self.sum += row_s.sum(axis=1).ravel()
            self.difference += row_d.sum(axis=1).ravel()
            self.dd += moment(d, d, row_d, row_d)
            self.sd += moment(s, d, row_s, row_d)
            self.ss += moment(s, s, row_s, row_s)
            self.largest = np.maximum(self.largest, np.maximum(p.max(axis=(1, 3)), q.max(axis=(1, 3))).ravel())
            self.smallest = np.minimum(self.smallest, np.minimum(p.min(axis=(1, 3)), q.min(axis=(1, 3))).ravel())
        self.mean = self.sum / (2.0 * self.samples)


class Noise:
    """Sections 4 to 7 for one plane."""

    def __init__(self, tiles, black, clip, floor):
        self.tiles, self.black = tiles, black
        self.step = max(1, clip - black) / 4096
        self.clipped = (tiles.largest >= clip) | (tiles.smallest <= floor)
        self.kept = ~self.clipped
        self.beta = self.imbalance()
        self.restless = np.zeros_like(self.kept)
        self.find_restless()
        self.bin()

    def imbalance(self):
        samples = int(self.kept.sum()) * self.tiles.samples
        light = int(self.tiles.sum[self.kept].sum()) - 2 * samples * self.black
        return int(self.tiles.difference[self.kept].sum()) / light if light > 2.0 * samples else 0.0

    def variance(self):
        t, beta = self.tiles, self.beta
        return (t.dd - 2 * beta * t.sd + beta * beta * t.ss) / (2.0 * t.freedom)

    def bin_of(self, mean):
        return (BINS_PER_STOP * np.log2(1 + np.maximum(0, mean - self.black) / self.step)).astype(np.int64)

    def find_restless(self):
        kept = np.flatnonzero(self.kept)
        if kept.size == 0:
            return
        signal, variance = self.tiles.mean[kept] - self.black, self.variance()[kept]
        bins = self.bin_of(self.tiles.mean[kept])
        freedom = self.tiles.freedom
        median_share = stats.chi2.ppf(0.5, freedom) / freedom
        order = np.argsort(bins, kind="stable")
        starts = np.flatnonzero(np.diff(bins[order], prepend=-1))
        groups = [g for g in np.split(order, starts[1:]) if g.size >= LEAST_TILES_FOR_MEDIAN]
        if not groups:
            return
        groups = [g[::max(1, g.size // ENOUGH_FOR_MEDIAN)] for g in groups]
        x = np.array([np.median(signal[g]) for g in groups])
        y = np.array([max(np.median(variance[g]) / median_share, 1e-6) for g in groups])
        expected = np.interp(signal, x, y)
        beyond = signal > x[-1]
        expected[beyond] = y[-1] * np.maximum(1, signal[beyond] / max(1e-9, x[-1]))
        ninth = 2.0 / (9 * freedom)
        limit = (1 - ninth + RESTLESS_SIGMA * np.sqrt(ninth)) ** 3
        self.restless[kept[variance > limit * expected]] = True
        self.kept &= ~self.restless

    def beside(self):
        mean = self.tiles.mean.reshape(self.tiles.down, self.tiles.across)
        if self.tiles.down == 1:
            return mean.ravel()
        result = np.empty_like(mean)
        result[0], result[-1] = mean[1], mean[-2]
        result[1:-1] = (mean[:-2] + mean[2:]) / 2
        return result.ravel()

    def bin(self):
        self.beta = self.imbalance()
        t, k = self.tiles, self.kept
        intervals = self.bin_of(self.beside()[k])
        self.bins = np.zeros((0, 4))
        if not intervals.size:
            return
        counts = np.bincount(intervals)
        bin_of, number, open_tiles = np.zeros(counts.size, int), 0, 0
        for i, count in enumerate(counts):      # a few dozen intervals, not tiles
            bin_of[i] = number
            open_tiles += count
            if open_tiles >= LEAST_TILES_PER_BIN:
                number, open_tiles = number + 1, 0
        bins = np.minimum(bin_of, max(number - 1, 0))[intervals]
        tiles, means, dd, sd, ss = (np.bincount(bins, weights=c) for c in (np.ones(bins.size), t.mean[k], t.dd[k], t.sd[k], t.ss[k]))
        mean = means / tiles
        freedom = tiles * t.freedom
        variance = (dd - 2 * self.beta * sd + self.beta ** 2 * ss) / (2 * freedom)
        order = np.argsort(mean, kind="stable")
        self.bins = np.stack([tiles * t.samples, freedom, mean, variance], axis=1)[order]
        expected = self.variance_at(t.mean)[k]
        relative = self.variance()[k] / expected - 1
        scatter = np.bincount(bins, weights=relative ** 2 * t.freedom / 2)
        spread = np.bincount(bins, weights=expected ** 2) / tiles
        overall = max(1.0, scatter.sum() / tiles.sum())
        cost = np.maximum(1, (scatter + LEANING_TILES * overall) / (tiles + LEANING_TILES)) * np.maximum(1, spread / variance ** 2)
        self.bins[:, 1] = np.floor(freedom / cost)[order]

    def variance_at(self, mean):
        """Section 8: between the bins, level beyond them."""
        if len(self.bins) == 0:
            return np.maximum(self.variance(), 1 / 120)
        return np.maximum(np.interp(mean, self.bins[:, 2], self.bins[:, 3]), 1 / 120)


def hot_pixels(a, b, noises, planes, tile, clip):
    """Section 8: number found, and by plane the tiles that hold one."""
    tile_rows, tile_columns = tile
    across = noises[0].tiles.across
    height, width = noises[0].tiles.down * tile_rows, across * tile_columns
    cell_rows, cell_columns = planes.shape
    dark = np.ones(noises[0].tiles.mean.size, bool)
    limits, suspect = [], np.zeros_like(dark)
    for n in noises:
        mean = n.tiles.mean
        dark &= mean - n.black < (clip - n.black) / 16.0
        limits.append(mean + SIGMAS_IN_SCENE * np.sqrt(n.variance_at(mean)))
        suspect |= n.tiles.largest > limits[-1]
    wanted = np.flatnonzero(dark & suspect)
    holders = [np.zeros(0, np.int64) for _ in noises]
    if wanted.size == 0:
        return 0, holders

    y, x = np.meshgrid(np.arange(tile_rows), np.arange(tile_columns), indexing="ij")
    ys = ((wanted // across)[:, None] * tile_rows + y.ravel()).ravel()
    xs = ((wanted % across)[:, None] * tile_columns + x.ravel()).ravel()
    tile_of = np.repeat(wanted, tile_rows * tile_columns)
    means, limit = np.stack([n.tiles.mean for n in noises]), np.stack(limits)

    def lower(yy, xx):
        return np.minimum(a[yy, xx], b[yy, xx]).astype(float)

    def plane_at(yy, xx):
        return planes[yy % cell_rows, xx % cell_columns]

    own = plane_at(ys, xs)
    far = lower(ys, xs) > limit[own, tile_of]
    ys, xs, tile_of, own = ys[far], xs[far], tile_of[far], own[far]
    excess = lower(ys, xs) - means[own, tile_of]
    neighbours = np.zeros(ys.size, int)
    like = np.full((24, ys.size), np.nan)
    at = 0
    for dy in range(-2, 3):
        for dx in range(-2, 3):
            if dy == 0 and dx == 0:
                continue
            ny, nx = ys + dy, xs + dx
            valid = (ny >= 0) & (ny < a.shape[0]) & (nx >= 0) & (nx < a.shape[1])
            cy, cx = np.clip(ny, 0, a.shape[0] - 1), np.clip(nx, 0, a.shape[1] - 1)
            p = plane_at(cy, cx)
            if abs(dy) <= 1 and abs(dx) <= 1:
                neighbours += valid & (lower(cy, cx) - means[p, tile_of] > 0.2 * excess)
            like[at] = np.where(valid & (p == own), (a[cy, cx].astype(float) + b[cy, cx]) / 2 - means[own, tile_of], np.nan)
            at += 1
    has_like = ~np.all(np.isnan(like), axis=0)
    middle = np.zeros(ys.size)
    if has_like.any():
        middle[has_like] = np.nanmedian(like[:, has_like], axis=0)
    alone = (neighbours <= 2) & (~has_like | (middle <= 0.04 * excess))
    for plane in range(len(noises)):
        holders[plane] = np.unique(tile_of[alone & (own == plane)])
    return int(alone.sum()), holders


def robust(a, b, info):
    planes = np.array(info["planeOfSite"]).reshape(info["cellRows"], info["cellColumns"])
    cell = planes.shape
    tile = tuple(-(-least // step) * step for least, step in zip((12, 24), cell))
    noises = [
        Noise(Tiles(a, b, planes, p, cell, tile), info["blackDn"][p], info["clipDn"][p], info["floorDn"][p])
        for p in range(planes.max() + 1)
    ]
    found, holders = hot_pixels(a, b, noises, planes, tile, max(info["clipDn"]))
    for n, tiles in zip(noises, holders):
        n.kept[tiles] = False
        n.bin()
    return noises, found


def best(times, work):
    result, shortest = None, float("inf")
    for _ in range(times):
        start = time.perf_counter()
        result = work()
        shortest = min(shortest, time.perf_counter() - start)
    return result, shortest


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("pair", type=pathlib.Path)
    parser.add_argument("--times", type=int, default=5)
    parser.add_argument("--no-tiles", action="store_true")
    options = parser.parse_args()
    info = json.loads(options.pair.read_text())

    def frame(name):
        samples = np.fromfile(options.pair.parent / info[name], dtype="<u2").reshape(-1, info["stride"])
        top, left = info["top"], info["left"]
        return samples[top:top + info["height"], left:left + info["width"]]

    a, b = frame("first"), frame("second")
    sites, plain_seconds = best(options.times, lambda: plain_sums(a, b, (info["cellRows"], info["cellColumns"])))
    (noises, found), robust_seconds = best(options.times, lambda: robust(a, b, info))
    answer = {
        "plainSums": sites,
        "plainSeconds": plain_seconds,
        "robustSeconds": robust_seconds,
        "hotPixels": found,
        "planes": [
            {
                "imbalance": n.beta,
                "clippedTiles": int(n.clipped.sum()),
                "restlessTiles": int(n.restless.sum()),
                "bins": [
                    {"samples": int(r[0]), "degreesOfFreedom": int(r[1]), "meanRawDn": r[2], "varianceDn2": r[3]} for r in n.bins
                ],
            }
            for n in noises
        ],
    }
    if not options.no_tiles:
        for plane, n in zip(answer["planes"], noises):
            t = n.tiles
            plane["tiles"] = {"sum": t.sum.tolist(), "difference": t.difference.tolist(), "dd": t.dd.tolist(), "sd": t.sd.tolist(), "ss": t.ss.tolist()}
    json.dump(answer, sys.stdout)


if __name__ == "__main__":
    main()
