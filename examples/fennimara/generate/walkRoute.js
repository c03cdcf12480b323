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
 * @property {'ridge' | 'houses'} [behind] what stands between the spot and the gateway
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
const firstOutings = [
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
      { spot: 'Little Hill Lee', behind: 'ridge', at: { eastM: -1150, northM: 3450 }, rounds: withSf12 },
      { spot: 'North Farm', behind: 'ridge', at: { eastM: -500, northM: 4500 } },
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
      { spot: 'Salt Pans', behind: 'ridge', at: { eastM: 2400, northM: -3600 } },
      { spot: 'Olive Road', behind: 'ridge', at: { eastM: 2900, northM: -1700 } },
      { spot: 'Rim Lee', behind: 'ridge', at: { eastM: 2500, northM: 500 } },
      { spot: 'Village Square', behind: 'ridge', at: corner(village, 0.5, 0.5), rounds: withSf12 },
      { spot: 'Village Quay', behind: 'ridge', at: { eastM: 4200, northM: 350 } },
    ],
  },
];

/**
 * Beds of washes that the first outings passed by, then the plain and the coast by bicycle.
 *
 * @type {readonly Outing[]}
 */
const laterOutings = [
  {
    startUtc: '2026-03-29T08:45:00Z',
    speedMps: 1.2,
    spots: [
      { spot: 'Tannery Yard', at: corner(town, 5.2, -4.2), behind: 'houses', rounds: withSf7 },
      { spot: 'Hospital Wall', at: corner(town, -4.2, -4.2), behind: 'houses' },
      { spot: 'Reed Bed', at: { eastM: -3100, northM: -60 }, hollow: true },
      { spot: 'Stepping Stones', at: { eastM: -2300, northM: -30 }, hollow: true },
      { spot: 'Upper North Wash', at: { eastM: -1300, northM: 470 }, hollow: true },
      { spot: 'Sheep Fold', at: { eastM: -700, northM: 200 } },
      { spot: 'Dry Fall', at: { eastM: -1000, northM: -480 }, hollow: true },
      { spot: 'Mule Wash Elbow', at: { eastM: -1680, northM: -960 }, hollow: true },
      { spot: 'Vineyard Hut', at: { eastM: -1500, northM: -1620 }, rounds: withSf7 },
      { spot: 'Tamarisk Bend', at: { eastM: -1350, northM: -1870 }, hollow: true, rounds: withSf12 },
      { spot: 'Almond Grove', at: { eastM: -3250, northM: -1800 } },
      { spot: 'Lime Kiln', at: { eastM: -3100, northM: -2450 }, hollow: true },
    ],
  },
  {
    startUtc: '2026-04-11T08:20:00Z',
    speedMps: 3.5,
    spots: [
      { spot: 'Barley Field', at: { eastM: -2900, northM: 1250 }, rounds: withSf7 },
      { spot: 'Signal Tower', at: { eastM: -3850, northM: 1900 }, rounds: withSf7 },
      { spot: 'North Cape Track', at: { eastM: -2500, northM: 3900 } },
      { spot: 'North Bay', at: { eastM: -1200, northM: 4900 }, behind: 'ridge', rounds: withSf12 },
      {
        spot: 'East Ford',
        at: { eastM: 3200, northM: 1400 },
        hollow: true,
        behind: 'ridge',
        rounds: withSf12,
      },
      { spot: 'Village Back Lane', at: corner(village, 2.2, -1.3), behind: 'ridge' },
      { spot: 'Cove', at: { eastM: 3900, northM: -800 }, behind: 'ridge' },
      { spot: 'Ridge Spring', at: { eastM: 2200, northM: -700 }, behind: 'ridge' },
      { spot: 'South Saltings', at: { eastM: -2300, northM: -4500 }, rounds: withSf12 },
      { spot: 'Cliff Path', at: { eastM: -3250, northM: -4050 } },
      { spot: 'Old Light Road', at: { eastM: -4000, northM: -2900 }, rounds: withSf7 },
      { spot: 'Brick Field', at: { eastM: -3900, northM: -1150 } },
    ],
  },
];

/**
 * The walks, each with chance drawn to its end before the next begins: a further one leaves the frames of those before it as
 * they are.
 */
export const walks = [firstOutings, laterOutings];
