// @ts-check
// Where the walk went: outings with their spots in the order in which they were visited.
import { corner, town, village } from './houses.js';

/** @import { LocalPoint } from './place.js' */

/**
 * A place where the walker stood still and sent one or more rounds of frames.
 *
 * @typedef {object} Spot
 * @property {string} spot
 * @property {LocalPoint} at
 * @property {boolean} [hollow] the spot is the lowest ground near `at`: the bed of a wash
 * @property {readonly Round[]} [rounds] a round on SF9 unless said otherwise
 */

/** @typedef {{ spreadingFactor: 7 | 9 | 12, frames: number }} Round */

/**
 * @typedef {object} Outing
 * @property {string} startUtc
 * @property {number} speedMps on foot 1.2, by bicycle 3.5
 * @property {readonly Spot[]} spots
 */

/** @type {Round} */
const sf9 = { spreadingFactor: 9, frames: 14 };

/** The round that nearly every spot has. */
export const usualRounds = [sf9];

/** @type {readonly Round[]} */
const withSf7 = [sf9, { spreadingFactor: 7, frames: 12 }];

/** Few frames, because the 1 % duty cycle asks for two minutes between them. @type {readonly Round[]} */
const withSf12 = [sf9, { spreadingFactor: 12, frames: 6 }];

/** @type {readonly Outing[]} */
export const outings = [
  {
    startUtc: '2026-03-14T10:05:00Z',
    speedMps: 1.2,
    spots: [
      { spot: 'Lantern Lane', at: corner(town, -0.5, 0.9) },
      { spot: 'Baker Corner', at: corner(town, 1.5, -0.5) },
      { spot: 'Market Square', at: corner(town, 2.5, 1.5), rounds: withSf7 },
      { spot: 'School Gate', at: corner(town, 0.5, 4.5) },
      { spot: 'Chapel Steps', at: corner(town, -3.5, 2.5) },
      { spot: 'West Gate', at: corner(town, -6.5, 0.5), rounds: withSf7 },
      { spot: 'Rope Walk', at: corner(town, -2.5, -1.5) },
      { spot: 'South Gate', at: corner(town, -0.5, -6.5) },
      { spot: 'Mill Street', at: corner(town, 4.5, -2.5) },
      { spot: 'Cooper Yard', at: corner(town, 5.5, 3.5) },
    ],
  },
  {
    startUtc: '2026-03-15T09:40:00Z',
    speedMps: 1.2,
    spots: [
      { spot: 'North Road Milestone', at: { eastM: -2640, northM: -420 } },
      { spot: 'North Wash Ford', at: { eastM: -2640, northM: -190 }, hollow: true },
      { spot: 'North Road Barn', at: { eastM: -2600, northM: 350 }, rounds: withSf7 },
      { spot: 'North Wash Bend', at: { eastM: -1900, northM: 90 }, hollow: true },
      { spot: 'Fig Terrace', at: { eastM: -1150, northM: -150 } },
      { spot: 'Mule Wash Head', at: { eastM: -1400, northM: -700 }, hollow: true },
      { spot: 'East Field', at: { eastM: -1250, northM: -1180 }, rounds: withSf7 },
      { spot: 'Mule Wash Crossing', at: { eastM: -1900, northM: -1250 }, hollow: true },
    ],
  },
  {
    startUtc: '2026-03-21T09:30:00Z',
    speedMps: 1.2,
    spots: [
      { spot: 'Washes Meeting', at: { eastM: -2050, northM: -1950 }, hollow: true, rounds: withSf12 },
      { spot: 'South Wash Ford', at: { eastM: -2700, northM: -2130 }, hollow: true },
      { spot: 'South Road Well', at: { eastM: -2680, northM: -2600 } },
      { spot: 'Threshing Floor', at: { eastM: -2450, northM: -3300 } },
      { spot: 'Quarry Road', at: { eastM: -1500, northM: -4150 } },
      { spot: 'Low Wash', at: { eastM: -3550, northM: -2760 }, hollow: true },
      { spot: 'Pebble Beach', at: { eastM: -4300, northM: -1900 } },
      { spot: 'West Beach', at: { eastM: -4550, northM: -900 } },
      { spot: 'Wash Mouth', at: { eastM: -3500, northM: 0 }, hollow: true },
      { spot: 'Boat Sheds', at: { eastM: -4500, northM: 950 } },
    ],
  },
  {
    startUtc: '2026-03-22T08:50:00Z',
    speedMps: 1.2,
    spots: [
      { spot: 'Cistern', at: { eastM: -3500, northM: 2950 } },
      { spot: 'Goat Gate', at: { eastM: -2150, northM: 1500 } },
      { spot: 'Little Hill', at: { eastM: -1640, northM: 2560 } },
      { spot: 'Little Hill Lee', at: { eastM: -1150, northM: 3450 }, rounds: withSf12 },
      { spot: 'North Farm', at: { eastM: -500, northM: 4500 } },
      { spot: 'North Rim', at: { eastM: 1080, northM: 2600 } },
      { spot: 'Rim Summit', at: { eastM: 1570, northM: 950 } },
      { spot: 'Saddle', at: { eastM: 100, northM: 3000 } },
      { spot: 'Shepherd Hut', at: { eastM: 800, northM: 300 } },
      { spot: 'Rim Foot', at: { eastM: 150, northM: -250 } },
    ],
  },
  {
    startUtc: '2026-03-28T08:30:00Z',
    speedMps: 3.5,
    spots: [
      { spot: 'Upper South Wash', at: { eastM: -700, northM: -1650 }, hollow: true },
      { spot: 'Rim End', at: { eastM: 420, northM: -2300 } },
      { spot: 'Windmill', at: { eastM: -650, northM: -3900 } },
      { spot: 'South Point', at: { eastM: 200, northM: -4600 }, rounds: withSf12 },
      { spot: 'Salt Pans', at: { eastM: 2400, northM: -3600 } },
      { spot: 'Olive Road', at: { eastM: 2900, northM: -1700 } },
      { spot: 'Rim Lee', at: { eastM: 2500, northM: 500 } },
      { spot: 'Village Square', at: corner(village, 0.5, 0.5), rounds: withSf12 },
      { spot: 'Village Quay', at: { eastM: 4200, northM: 350 } },
    ],
  },
];
