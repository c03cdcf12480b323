import type { BeaconLog, BeaconReading } from '@finial/survey';

/** One day of the beacon, midnight to midnight in UTC. */
export interface BeaconDay {
  /** The day, such as `2026-03-01`. */
  readonly date: string;
  /** Frames received. */
  readonly received: number;
  /** Rows of missed frames in the log. */
  readonly missed: number;
  /** Median level of the received frames in dBm, as received; absent where there are none. */
  readonly medianLevelDbm?: number | undefined;
  /** Mean of the temperatures that came with them in degrees Celsius; absent where none did. */
  readonly meanTemperatureC?: number | undefined;
}

/** The log day by day; a day without rows has no entry. */
export function beaconDays({ readings, missedSeconds }: BeaconLog): readonly BeaconDay[] {
  const byDay = new Map<string, { readings: BeaconReading[]; missed: number }>();
  const day = (timeSeconds: number) => {
    const date = new Date(timeSeconds * 1000).toISOString().slice(0, 10);
    const entry = byDay.get(date) ?? { readings: [], missed: 0 };
    byDay.set(date, entry);
    return entry;
  };
  for (const reading of readings) day(reading.timeSeconds).readings.push(reading);
  for (const timeSeconds of missedSeconds) day(timeSeconds).missed += 1;
  return [...byDay.entries()]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([date, entry]) => dayOf(date, entry.readings, entry.missed));
}

function dayOf(date: string, readings: readonly BeaconReading[], missed: number): BeaconDay {
  const temperatures = readings.flatMap(({ temperatureC }) => temperatureC ?? []);
  const sum = temperatures.reduce((total, temperatureC) => total + temperatureC, 0);
  return {
    date,
    received: readings.length,
    missed,
    ...(readings.length === 0 ? {} : { medianLevelDbm: median(readings.map(({ levelDbm }) => levelDbm)) }),
    ...(temperatures.length === 0 ? {} : { meanTemperatureC: sum / temperatures.length }),
  };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
