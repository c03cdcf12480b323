/** Zones of points as numbers: a series of them says with 1 what is sea and with 0 what is not. */
export const inlandZone = 0;
export const seaZone = 1;
export const coastalZone = 2;

/** Longest stretch of points that all count, with half of the gap to its neighbour at each end, while the points of a radial arrive. */
class StretchSweep {
  /** The longest stretch that is over. */
  private longestM = 0;
  /** Where the stretch began that the last point belongs to; NaN where it belongs to none. */
  private startM = Number.NaN;

  start(counts: boolean): void {
    this.longestM = 0;
    this.startM = counts ? 0 : Number.NaN;
  }

  push(counts: boolean, gapMiddleM: number): void {
    if (counts === this.startM >= 0) return;
    if (counts) {
      this.startM = gapMiddleM;
    } else {
      this.longestM = Math.max(this.longestM, gapMiddleM - this.startM);
      this.startM = Number.NaN;
    }
  }

  /** With the receiver as the last point. */
  longest(counts: boolean, gapMiddleM: number, distanceM: number): number {
    const open = this.startM >= 0;
    if (!counts) return open ? Math.max(this.longestM, gapMiddleM - this.startM) : this.longestM;
    return Math.max(this.longestM, distanceM - (open ? this.startM : gapMiddleM));
  }
}

/** What the zones of a path say, kept up while the points of a radial arrive. The answer for the last receiver stays in the fields. */
export class ZoneSweep {
  /** Part of the path over the sea, 0 to 1. */
  seaShare = 0;
  longestLandM = 0;
  longestInlandM = 0;
  /** Distances over land to the sea; Infinity where there is none. */
  transmitterCoastM: number = Number.POSITIVE_INFINITY;
  receiverCoastM: number = Number.POSITIVE_INFINITY;

  private readonly land = new StretchSweep();
  private readonly inland = new StretchSweep();
  private seaM = 0;
  private lastM = 0;
  private lastZone = inlandZone;
  private firstSeaM = Number.POSITIVE_INFINITY;
  /** Where the last sea ended; NaN where the last point is sea, below 0 where there was none. */
  private seaEndM = -1;
  private allInland = true;

  /** Begins a radial with the zone of the transmitter. */
  start(zone: number): void {
    this.land.start(zone !== seaZone);
    this.inland.start(zone === inlandZone);
    this.seaM = 0;
    this.lastM = 0;
    this.lastZone = zone;
    this.firstSeaM = zone === seaZone ? 0 : Number.POSITIVE_INFINITY;
    this.seaEndM = zone === seaZone ? Number.NaN : -1;
    this.allInland = zone === inlandZone;
  }

  /** Takes in the next point. */
  push(distanceM: number, zone: number): void {
    if (this.allInland && zone === inlandZone) {
      this.lastM = distanceM;
      return;
    }
    this.allInland = false;
    const middleM = (this.lastM + distanceM) / 2;
    this.seaM += (this.seaEnds(zone) / 2) * (distanceM - this.lastM);
    this.land.push(zone !== seaZone, middleM);
    this.inland.push(zone === inlandZone, middleM);
    if (zone === seaZone) {
      if (this.firstSeaM === Number.POSITIVE_INFINITY) this.firstSeaM = middleM;
      this.seaEndM = Number.NaN;
    } else if (this.lastZone === seaZone) {
      this.seaEndM = middleM;
    }
    this.lastM = distanceM;
    this.lastZone = zone;
  }

  /** Closes the path with a receiver. */
  find(distanceM: number, zone: number): void {
    if (this.allInland && zone === inlandZone) {
      this.seaShare = 0;
      this.longestLandM = this.longestInlandM = distanceM;
      this.transmitterCoastM = this.receiverCoastM = Number.POSITIVE_INFINITY;
      return;
    }
    const middleM = (this.lastM + distanceM) / 2;
    const atSea = zone === seaZone;
    const seaM = this.seaM + (this.seaEnds(zone) / 2) * (distanceM - this.lastM);
    this.seaShare = Math.min(1, seaM / distanceM);
    this.longestLandM = this.land.longest(!atSea, middleM, distanceM);
    this.longestInlandM = this.inland.longest(zone === inlandZone, middleM, distanceM);
    this.transmitterCoastM = atSea ? Math.min(this.firstSeaM, middleM) : this.firstSeaM;
    this.receiverCoastM = atSea ? 0 : this.overLandM(distanceM, middleM);
  }

  private overLandM(distanceM: number, middleM: number): number {
    if (this.seaEndM < 0) return Number.POSITIVE_INFINITY;
    return distanceM - (this.lastZone === seaZone ? middleM : this.seaEndM);
  }

  private seaEnds(zone: number): number {
    return Number(zone === seaZone) + Number(this.lastZone === seaZone);
  }
}
