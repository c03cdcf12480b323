import type { Elevation, ElevationTile } from '@finial/terrain';
import type { SweepSetting } from './SweepMessages.js';

/** A setting that is ready to be sent to one worker. */
export interface SentSetting {
  readonly setting: SweepSetting;
  /** Buffers that go along instead of being copied once more. */
  readonly transfer: readonly ArrayBuffer[];
}

type Series = ElevationTile['heightsM'] | Int32Array;

/**
 * Makes a setting ready for workers, one call each. Where memory can be shared, all of them read one copy (and none is made of tiles that
 * are shared already); elsewhere each gets its own. The caller's tiles stay whole either way.
 */
export function settingForWorkers(setting: SweepSetting): () => SentSetting {
  if (canShareMemory()) {
    const shared = withSeries(setting, sharedCopy);
    return () => ({ setting: shared, transfer: [] });
  }
  return () => {
    const transfer: ArrayBuffer[] = [];
    const copied = withSeries(setting, (series) => {
      const copy = series.slice() as typeof series;
      transfer.push(copy.buffer as ArrayBuffer);
      return copy;
    });
    return { setting: copied, transfer };
  };
}

/** A page shares memory only if its server isolates it from other pages; Node always does. */
function canShareMemory(): boolean {
  return (
    typeof SharedArrayBuffer === 'function' &&
    (globalThis as { readonly crossOriginIsolated?: boolean }).crossOriginIsolated !== false
  );
}

function sharedCopy<Kind extends Series>(series: Kind): Kind {
  if (series.buffer instanceof SharedArrayBuffer) return series;
  const Same = series.constructor as new (buffer: SharedArrayBuffer) => Kind;
  const shared = new Same(new SharedArrayBuffer(series.byteLength));
  shared.set(series);
  return shared;
}

function withSeries(
  { question, ground, geometry }: SweepSetting,
  change: <Kind extends Series>(series: Kind) => Kind,
): SweepSetting {
  const { elevation, landCover } = ground;
  const changed = (raster: Elevation): Elevation => ({
    ...raster,
    tiles: raster.tiles.map((tile) => ({ ...tile, heightsM: change(tile.heightsM) })),
  });
  return {
    question,
    ground: {
      elevation: changed(elevation),
      landCover: landCover && { ...landCover, codes: changed(landCover.codes) },
    },
    geometry: { ...geometry, order: change(geometry.order), start: change(geometry.start) },
  };
}
