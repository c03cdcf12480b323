import { checkObject, checkRange, type Finding, InputError } from '@finial/units';

/** What is known of a site about its way to the internet. */
export interface BackhaulSite {
  /** Length of a data cable from the router to the gateway in metres, as it would lie, 0.01 to 10 000. */
  readonly cableRouteM: number;
  /** Whether that cable would leave the building or end in another one. */
  readonly leavesBuilding: boolean;
  /**
   * Margin of Wi-Fi at the gateway in dB, -100 to 100, as `wifiBackhaul` gives it.
   *
   * @defaultValue none: Wi-Fi is then a question
   */
  readonly wifiMarginDb?: number | undefined;
  /**
   * Level of the cellular network at the gateway in dBm (reference signal power, RSRP), -160 to -20.
   *
   * @defaultValue none: cellular is then a question
   */
  readonly cellularRsrpDbm?: number | undefined;
}

/** One way to the internet. */
export interface BackhaulChoice {
  /** Which way. */
  readonly way: 'ethernet' | 'fibre' | 'wifi' | 'cellular';
  /** Whether it serves here, by what was stated; `ask` where something must be found out first. */
  readonly suits: 'yes' | 'no' | 'ask';
  /** Why, in one sentence. */
  readonly reason: string;
  /** What it asks for, and what to mind. */
  readonly findings: readonly Finding[];
}

const unsourced = 'common practice, no source';
const greatestEthernetM = 100;
const wantedWifiMarginDb = 20;
/** Strong, and barely usable. */
const goodRsrpDbm = -100;
const leastRsrpDbm = -115;

/**
 * Ways to the internet that a site has, the steadiest first, each with what it asks for.
 *
 * A gateway sends and receives kilobits, so every way is fast enough; what counts is that it stays up, that its delay stays within the receive windows of
 * the nodes (a second or so), and that somebody pays for it.
 *
 * @returns ethernet, fibre, Wi-Fi and cellular, in this order
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source common practice, no source; 100 m of copper: IEEE 802.3 channel
 * @example A mast in the garden
 * ```ts
 * import { backhaulChoices } from '@finial/site';
 *
 * const ways = backhaulChoices({ cableRouteM: 130, leavesBuilding: true, wifiMarginDb: 25 });
 * ways.map(({ way, suits }) => `${way} ${suits}`);
 * // → ['ethernet no', 'fibre yes', 'wifi yes', 'cellular ask']
 * ```
 */
export function backhaulChoices(site: BackhaulSite): readonly BackhaulChoice[] {
  checkObject(site, 'site');
  const { wifiMarginDb, cellularRsrpDbm, leavesBuilding } = site;
  if (typeof leavesBuilding !== 'boolean') {
    const expected = 'true or false';
    throw new InputError({
      code: 'wrong-type',
      argument: 'leavesBuilding',
      received: leavesBuilding,
      expected,
    });
  }
  const routeM = checkRange(site.cableRouteM, 'cableRouteM', { min: 0.01, max: 10_000, unit: 'metres' });
  return [
    ethernet(routeM, leavesBuilding),
    fibre(leavesBuilding),
    wifi(optional(wifiMarginDb, 'wifiMarginDb', { min: -100, max: 100, unit: 'dB' })),
    cellular(optional(cellularRsrpDbm, 'cellularRsrpDbm', { min: -160, max: -20, unit: 'dBm' })),
  ];
}

function optional(
  value: number | undefined,
  argument: string,
  bounds: { readonly min: number; readonly max: number; readonly unit: string },
): number | undefined {
  return value === undefined ? undefined : checkRange(value, argument, bounds);
}

function note(rule: string, message: string): Finding {
  return { rule, severity: 'note', message, source: unsourced };
}

function ethernet(routeM: number, leavesBuilding: boolean): BackhaulChoice {
  const reaches = routeM <= greatestEthernetM;
  const reason = reaches
    ? `${routeM} m of copper are within the 100 m of Ethernet, and one cable brings power too.`
    : `${routeM} m of copper are more than the 100 m of Ethernet.`;
  const surge = note(
    'ethernet-outdoors',
    'Copper that leaves the building brings lightning surges in: outdoor cable, surge protection at both ends, bonding under the local code by a licensed practitioner; between buildings with earths of their own take fibre.',
  );
  return { way: 'ethernet', suits: reaches ? 'yes' : 'no', reason, findings: leavesBuilding ? [surge] : [] };
}

function fibre(leavesBuilding: boolean): BackhaulChoice {
  const reason = leavesBuilding
    ? 'Glass carries no surge and no difference of earth potential, over any length here.'
    : 'It serves, but inside one building copper is simpler.';
  const power = note(
    'fibre-power',
    'Fibre brings no power, and its converter needs a place in the box within its temperature range.',
  );
  return { way: 'fibre', suits: 'yes', reason, findings: [power] };
}

function wifi(marginDb: number | undefined): BackhaulChoice {
  const findings = [
    note(
      'wifi-router',
      "Somebody will exchange the router or its password: write down who puts the gateway back on, and keep the owner's consent.",
    ),
    note(
      'wifi-shared',
      'The 2.4 GHz band is shared: expect minutes of loss, and keep the Wi-Fi antenna apart from the LoRa antenna.',
    ),
  ];
  if (marginDb === undefined)
    return { way: 'wifi', suits: 'ask', reason: 'Compute or measure its level first.', findings };
  const figures = `${marginDb.toFixed(1)} dB of margin, ${wantedWifiMarginDb} dB are wanted`;
  return {
    way: 'wifi',
    suits: marginDb >= wantedWifiMarginDb ? 'yes' : 'no',
    reason: `It has ${figures}.`,
    findings,
  };
}

function cellular(rsrpDbm: number | undefined): BackhaulChoice {
  const findings = [
    note(
      'cellular-contract',
      'A SIM needs a contract that somebody keeps paying, and an operator that keeps the network generation of the modem on the air.',
    ),
    note(
      'cellular-power',
      'A modem draws peaks of some watts while sending: count them in the supply, and keep its antenna half a metre and more from the LoRa antenna.',
    ),
    note(
      'cellular-delay',
      'Idle modems take a second and more to wake, longer than the first receive window of a node: keep the session alive, and measure the delay.',
    ),
  ];
  if (rsrpDbm === undefined)
    return {
      way: 'cellular',
      suits: 'ask',
      reason: 'Measure the level of the network at the place first.',
      findings,
    };
  const suits = rsrpDbm >= goodRsrpDbm ? 'yes' : rsrpDbm >= leastRsrpDbm ? 'ask' : 'no';
  const words = { yes: 'strong enough', ask: 'weak: try an outside antenna', no: 'too weak' };
  return { way: 'cellular', suits, reason: `${rsrpDbm} dBm is ${words[suits]}.`, findings };
}
