import {
  checkTransmission,
  regions,
  type Transmission,
  type TransmissionFinding,
  usRules,
} from '@finial/lora';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

// Times on air are those of reference/lorawan.md, section 1 (exact arithmetic, 84 values of compiled stacks agree); limits are those of
// its section 6. Where another figure appears it is worked out in the comment beside it.

const quiet = { conductedPowerDbm: 0, feedlineLossDb: 0, antennaGainDbi: 0 };

function stops(transmission: Transmission): string[] {
  return checkTransmission(transmission)
    .findings.filter(({ severity }) => severity === 'stop')
    .map(({ rule }) => rule);
}

function rules(transmission: Transmission): string[] {
  return checkTransmission(transmission).findings.map(({ rule }) => rule);
}

function found(transmission: Transmission, rule: string): TransmissionFinding {
  const finding = checkTransmission(transmission).findings.find((each) => each.rule === rule);
  if (finding === undefined) throw new Error(`no finding ${rule}`);
  return finding;
}

describe('Europe', () => {
  const node: Transmission = {
    region: regions.EU868,
    jurisdiction: 'EU',
    dataRate: 0,
    frequencyHz: 868.1e6,
    applicationBytes: 11,
    ...quiet,
  };

  test('FSK at 50 kbit/s: 2128 bits for 255 bytes last 42.56 ms, which 1 % lets go every 4.256 s', () => {
    const check = checkTransmission({ ...node, dataRate: 7, applicationBytes: 242 });
    expect(check.permitted).toBe(true);
    expect(check.timeOnAir).toMatchObject({ modulation: 'FSK', totalBits: 8 * (5 + 3 + 1 + 255 + 2) });
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(0.04256, 12);
    expect(check.minimumIntervalSeconds).toBeCloseTo(4.256, 9);
  });

  test('LR-FHSS: the whole frame of 4067.328 ms counts for the duty cycle', () => {
    // M = 58 bytes are 50 of the application.
    const check = checkTransmission({ ...node, dataRate: 8, applicationBytes: 50 });
    expect(check.permitted).toBe(true);
    expect(check.timeOnAir).toMatchObject({ modulation: 'LR-FHSS', headerCount: 3 });
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(4.067328, 9);
    expect(check.minimumIntervalSeconds).toBeCloseTo(406.7328, 6);
    expect(check.intervalScope).toBe('sub-band');
  });

  test('LR-FHSS: a faster code is the way out, and its channel must fit as a whole', () => {
    const hasty = { ...node, dataRate: 8, applicationBytes: 50, intervalSeconds: 300 };
    const finding = found(hasty, 'duty-cycle');
    expect(finding.severity).toBe('stop');
    expect(finding.message).toContain('wait 406.8 s');
    expect(finding.remedies).toContainEqual({ dataRate: 9 });
    for (const remedy of finding.remedies) expect(stops({ ...hasty, ...remedy })).toEqual([]);
    // 336 kHz around 868.5 MHz reach to 868.668 MHz.
    expect(stops({ ...node, dataRate: 10, frequencyHz: 868.5e6 })).toEqual(['reserved-band']);
    expect(stops({ ...node, dataRate: 10, frequencyHz: 868.3e6 })).toEqual([]);
  });

  test('longer than all that 0.1 % leaves in an hour: the hour is from memory, so a note', () => {
    // 0.001 of 3600 s is 3.6 s.
    const long = { ...node, dataRate: 8, applicationBytes: 50, frequencyHz: 864e6 };
    const finding = found(long, 'duty-cycle-budget');
    expect(finding).toMatchObject({ severity: 'note', limit: '3.6 s in 3600 s' });
    expect(finding.message).toContain('unverified');
    for (const remedy of finding.remedies) expect(rules({ ...long, ...remedy })).not.toContain(finding.rule);
  });

  test('a data rate of another bandwidth is no advice: its channels are others', () => {
    const fast = { ...node, dataRate: 5, applicationBytes: 200, intervalSeconds: 20 };
    expect(found(fast, 'duty-cycle').remedies.map((remedy) => Object.keys(remedy)[0])).toEqual([
      'intervalSeconds',
      'applicationBytes',
    ]);
  });

  test('433 MHz: 10 dBm ERP and 10 %', () => {
    const low: Transmission = { ...node, region: regions.EU433, frequencyHz: 433.175e6 };
    const check = checkTransmission({ ...low, conductedPowerDbm: 10, antennaGainDbi: 2.15 });
    expect(check.permitted).toBe(true);
    expect(check.minimumIntervalSeconds).toBeCloseTo(14.82752, 9);
    const loud = { ...low, conductedPowerDbm: 11.3, antennaGainDbi: 2.15 };
    expect(stops(loud)).toEqual(['erp-limit']);
    expect(found(loud, 'erp-limit').message).toContain('1.3 dB too much for 433.05 to 434.79 MHz');
  });

  test('listening instead of the duty cycle exists, but its figures are not known', () => {
    const polite: Transmission = { ...node, access: 'listen-before-talk' };
    expect(stops(polite)).toEqual(['access-not-covered']);
    expect(found(polite, 'access-not-covered').remedies).toEqual([{ access: 'duty-cycle' }]);
    expect(stops({ ...polite, access: 'duty-cycle' })).toEqual([]);
    expect(checkTransmission(node).notCovered.join()).toContain('polite spectrum access');
  });

  test('a pace is mended by waiting or by sending less', () => {
    // SF12 with 13 bytes lasts 1155.072 ms: 115.5072 s at 1 %; 11 application bytes need 148.2752 s.
    const hasty = { ...node, intervalSeconds: 118.4 };
    const finding = found(hasty, 'duty-cycle');
    expect(finding.message).toContain('wait 148.3 s between starts');
    expect(stops({ ...node, applicationBytes: 0, intervalSeconds: 115.6 })).toEqual([]);
    expect(stops({ ...node, applicationBytes: 0, intervalSeconds: 115.4 })).toEqual(['duty-cycle']);
  });

  test('downlinks: which window hears them, and whose budget they share', () => {
    const answer: Transmission = { ...node, direction: 'downlink' };
    expect(found(answer, 'duty-cycle').message).toContain("all the gateway's downlinks");
    expect(rules(answer)).not.toContain('window-channel');
    const second = { ...answer, frequencyHz: 869.525e6 };
    expect(rules(second)).not.toContain('second-window');
    expect(found({ ...second, dataRate: 3 }, 'second-window').remedies).toEqual([{ dataRate: 0 }]);
    expect(found({ ...answer, frequencyHz: 867.1e6 }, 'window-channel').severity).toBe('note');
    expect(rules({ ...node, frequencyHz: 867.1e6 })).not.toContain('window-channel');
  });

  test('the repeater takes bytes from long frames only', () => {
    const long = { ...node, dataRate: 5, applicationBytes: 230 };
    expect(stops(long)).toEqual([]);
    // 230 bytes of MACPayload leave 222.
    expect(stops({ ...long, repeater: true })).toEqual(['max-payload']);
    expect(stops({ ...long, repeater: true, applicationBytes: 222 })).toEqual([]);
  });
});

describe('United States', () => {
  const node: Transmission = {
    region: regions.US915,
    jurisdiction: 'US',
    dataRate: 0,
    frequencyHz: 902.3e6,
    applicationBytes: 11,
    channelUse: 'hopping-64',
    ...quiet,
  };
  const law = (transmission: Transmission) =>
    stops(transmission).filter((rule) => !rule.startsWith('region-') && rule !== 'max-payload');

  test.each(vectors.fccAntennaBackoff)(
    '$antennaGainDbi dBi of $baseConductedDbm dBm: $maxConductedDbm dBm and not a tenth more',
    ({ antennaGainDbi, baseConductedDbm, maxConductedDbm }) => {
      // 0.25 W belongs to 25 to 49 wide channels: SF7 at 250 kHz, which no American plan has.
      const few = baseConductedDbm < 30;
      const wide = { region: regions.EU868, dataRate: 6, frequencyHz: 915e6 } as const;
      const station: Transmission = {
        ...node,
        ...(few ? wide : {}),
        channelUse: { system: 'hopping', channelCount: few ? 25 : 50 },
        antennaGainDbi,
      };
      expect(law({ ...station, conductedPowerDbm: maxConductedDbm })).toEqual([]);
      expect(law({ ...station, conductedPowerDbm: maxConductedDbm + 0.1 })).toEqual(['conducted-power']);
    },
  );

  test('25 to 49 wide channels: 0.25 W, 400 ms in 10 s', () => {
    const wide: Transmission = {
      ...node,
      region: regions.EU868,
      dataRate: 6,
      frequencyHz: 915e6,
      // SF7 at 250 kHz, 255 bytes: 199.808 ms, of which two fit into 400 ms.
      applicationBytes: 242,
      channelUse: { system: 'hopping', channelCount: 25 },
    };
    expect(checkTransmission(wide).minimumIntervalSeconds).toBe(5);
    expect(law({ ...wide, conductedPowerDbm: 24 })).toEqual(['conducted-power']);
    expect(
      law({ ...wide, conductedPowerDbm: 30, channelUse: { system: 'hopping', channelCount: 50 } }),
    ).toEqual([]);
    expect(law({ ...wide, channelUse: { system: 'hopping', channelCount: 24 } })).toEqual([
      'hopping-channels',
    ]);
  });

  test('narrow channels need 50 to hop; fewer are hybrid, with a window of 400 ms each', () => {
    const few: Transmission = { ...node, channelUse: { system: 'hopping', channelCount: 16 } };
    expect(stops(few)).toEqual(['hopping-channels']);
    const finding = found(few, 'hopping-channels');
    expect(finding.message).toContain('34 too few');
    for (const remedy of finding.remedies) expect(stops({ ...few, ...remedy })).toEqual([]);
    const hybrid: Transmission = { ...node, channelUse: { system: 'hybrid', channelCount: 16 } };
    expect(checkTransmission(hybrid).minimumIntervalSeconds).toBeCloseTo(6.4, 12);
  });

  test('the named ways are those with their numbers of channels', () => {
    const findings = (channelUse: Transmission['channelUse']) =>
      checkTransmission({ ...node, channelUse, conductedPowerDbm: 25 }).findings;
    expect(findings({ system: 'hopping', channelCount: 64 })).toEqual(findings('hopping-64'));
    expect(findings({ system: 'hybrid', channelCount: 8 })).toEqual(findings('hybrid-8'));
  });

  test('one fixed channel is left -1.25 dBm EIRP', () => {
    const fixed: Transmission = { ...node, channelUse: 'single', antennaGainDbi: 2 };
    expect(stops({ ...fixed, conductedPowerDbm: -3.25 })).toEqual([]);
    expect(stops({ ...fixed, conductedPowerDbm: -3.2 })).toEqual(['no-class']);
    const finding = found({ ...fixed, conductedPowerDbm: 14 }, 'no-class');
    expect(finding.limit).toBe('-1.25 dBm EIRP');
    expect(finding.remedies).toHaveLength(3);
    for (const remedy of finding.remedies)
      expect(stops({ ...fixed, conductedPowerDbm: 14, ...remedy })).toEqual([]);
  });

  test('no relaxation for fixed links: 36 dBm EIRP is the end with any antenna', () => {
    const dish = { ...node, antennaGainDbi: 24 };
    expect(stops({ ...dish, conductedPowerDbm: 12 })).toEqual([]);
    expect(stops({ ...dish, conductedPowerDbm: 12.1 })).toContain('conducted-power');
  });

  test('LR-FHSS: hops of 233.472 ms dwell one by one, so that frames of 4 s are lawful', () => {
    const hopping: Transmission = { ...node, dataRate: 5, frequencyHz: 903e6, applicationBytes: 50 };
    const check = checkTransmission(hopping);
    expect(law(hopping)).toEqual([]);
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(4.067328, 9);
    // One hop of 233.472 ms fits into 400 ms, two do not: once in 20 s.
    expect(check.minimumIntervalSeconds).toBe(usRules.hopping.windowSeconds);
    expect(check.intervalScope).toBe('frequency');
    expect(found(hopping, 'hop-frequencies').severity).toBe('note');
  });
});

describe('Japan', () => {
  const node: Transmission = {
    region: regions.AS923_1,
    jurisdiction: 'JP',
    dataRate: 0,
    frequencyHz: 923.2e6,
    applicationBytes: 11,
    ...quiet,
  };

  test('920.6 to 923.4 MHz: 5 ms of listening, no dwell time, 360 s in an hour', () => {
    const check = checkTransmission(node);
    expect(check.permitted).toBe(true);
    // 1.482752 s at a tenth of the time.
    expect(check.minimumIntervalSeconds).toBeCloseTo(14.82752, 9);
    const listening = found(node, 'listen-before-talk');
    expect(listening).toMatchObject({ severity: 'note', limit: '-80 dBm for 5 ms' });
    expect(found(node, 'pause')).toMatchObject({ severity: 'note', limit: '50 ms' });
    expect(found(node, 'pause').message).toContain('unverified');
  });

  test('above, 400 ms: SF12 is out, SF10 is in', () => {
    const high = { ...node, frequencyHz: 925e6 };
    expect(stops(high)).toEqual(['transmission-duration']);
    const finding = found(high, 'transmission-duration');
    expect(finding.limit).toBe('0.4 s');
    expect(finding.message).toContain('SF10 (DR2) or faster');
    expect(finding.remedies).toEqual([{ dataRate: 2 }]);
    expect(stops({ ...high, dataRate: 2 })).toEqual([]);
    expect(found(high, 'listen-before-talk').limit).toBe('-80 dBm for 0.128 ms');
  });

  test('more than 4 s or 13 dBm is worth a note, for both are from memory', () => {
    const long = { ...node, applicationBytes: 115 };
    expect(stops(long)).toEqual(['max-payload']);
    expect(found(long, 'transmission-duration').severity).toBe('note');
    const loud = { ...node, conductedPowerDbm: 14, antennaGainDbi: 3 };
    expect(found(loud, 'conducted-power')).toMatchObject({ severity: 'note', limit: '13 dBm' });
    expect(found(loud, 'eirp-limit')).toMatchObject({ severity: 'note', limit: '16 dBm EIRP' });
    expect(rules({ ...loud, conductedPowerDbm: 13 })).not.toContain('eirp-limit');
  });

  test('without listening, or wider than a unit channel, nothing is known', () => {
    const deaf: Transmission = { ...node, access: 'duty-cycle' };
    expect(stops(deaf)).toEqual(['access-not-covered']);
    expect(found(deaf, 'access-not-covered').remedies).toEqual([{ access: 'listen-before-talk' }]);
    expect(stops({ ...node, dataRate: 6 })).toEqual(['bandwidth']);
  });

  test('limited dwell time takes the bytes of the plan', () => {
    const ten = { ...node, dataRate: 2, applicationBytes: 12 };
    expect(stops(ten)).toEqual([]);
    expect(stops({ ...ten, dwellLimited: true })).toEqual(['max-payload']);
    expect(stops({ ...ten, dwellLimited: true, applicationBytes: 11 })).toEqual([]);
    expect(stops({ ...ten, dwellLimited: true, dataRate: 0 })).toEqual(['max-payload']);
  });
});

describe('Korea', () => {
  const node: Transmission = {
    region: regions.KR920,
    jurisdiction: 'KR',
    dataRate: 0,
    frequencyHz: 922.1e6,
    applicationBytes: 11,
    ...quiet,
  };

  test('who listens for 5 ms at -65 dBm may send for 4 s and pauses for 50 ms', () => {
    const check = checkTransmission(node);
    expect(check.permitted).toBe(true);
    expect(check.minimumIntervalSeconds).toBeCloseTo(1.482752 + 0.05, 12);
    expect(found(node, 'listen-before-talk').limit).toBe('-65 dBm for 5 ms');
    expect(stops({ ...node, intervalSeconds: 1.53 })).toEqual(['pause']);
    expect(found({ ...node, intervalSeconds: 1.5 }, 'pause').remedies).toEqual([{ intervalSeconds: 1.6 }]);
    expect(stops({ ...node, intervalSeconds: 1.6 })).toEqual([]);
  });

  test('who does not has 2 % of any 20 s, in whole frames', () => {
    const deaf: Transmission = { ...node, access: 'duty-cycle' };
    // 0.4 s of 20 s; SF12 lasts 1482.752 ms.
    expect(stops(deaf)).toEqual(['duty-cycle-budget']);
    expect(found(deaf, 'duty-cycle-budget').message).toContain('1.083 s longer');
    for (const remedy of found(deaf, 'duty-cycle-budget').remedies)
      expect(stops({ ...deaf, ...remedy })).toEqual([]);
    // SF10 lasts 370.688 ms: once in 20 s. SF8 lasts 113.152 ms: three times.
    expect(checkTransmission({ ...deaf, dataRate: 2 }).minimumIntervalSeconds).toBe(20);
    expect(checkTransmission({ ...deaf, dataRate: 4 }).minimumIntervalSeconds).toBeCloseTo(20 / 3, 12);
    const hasty = { ...deaf, dataRate: 4, intervalSeconds: 6 };
    expect(stops(hasty)).toEqual(['duty-cycle']);
    // Four frames in 20 s have 100 ms each: SF8 with 20 bytes lasts 102.912 ms, with 18 bytes 92.672 ms.
    expect(found(hasty, 'duty-cycle').remedies.map((remedy) => Object.keys(remedy)[0])).toEqual([
      'intervalSeconds',
      'applicationBytes',
      'dataRate',
    ]);
    for (const remedy of found(hasty, 'duty-cycle').remedies)
      expect(stops({ ...hasty, ...remedy })).toEqual([]);
  });

  test('14 dBm EIRP, and 10 dBm below 922 MHz', () => {
    const strong = { ...node, conductedPowerDbm: 12, antennaGainDbi: 2 };
    expect(stops(strong)).toEqual([]);
    expect(stops({ ...strong, conductedPowerDbm: 13.3 })).toEqual(['eirp-limit']);
    expect(found({ ...strong, conductedPowerDbm: 13.3 }, 'eirp-limit').message).toContain('by 1.3 dB');
    const low = { ...strong, frequencyHz: 921.9e6 };
    expect(found(low, 'eirp-limit')).toMatchObject({ severity: 'stop', limit: '10 dBm EIRP' });
    const gateway: Transmission = { ...low, direction: 'downlink', conductedPowerDbm: 25 };
    expect(found(gateway, 'eirp-limit')).toMatchObject({ severity: 'note', limit: '23 dBm EIRP' });
  });
});

describe('India, China and Australia', () => {
  test('India: 4 W ERP, 1 W at the port, 200 kHz, up to 867 MHz', () => {
    const node: Transmission = {
      region: regions.IN865,
      jurisdiction: 'IN',
      dataRate: 0,
      frequencyHz: 865.0625e6,
      applicationBytes: 11,
      ...quiet,
    };
    expect(stops(node)).toEqual([]);
    expect(checkTransmission(node).minimumIntervalSeconds).toBeUndefined();
    expect(stops({ ...node, conductedPowerDbm: 30.1 })).toEqual(['conducted-power']);
    // 4 W are 36.02 dBm ERP, 38.17 dBm EIRP.
    expect(stops({ ...node, conductedPowerDbm: 28, antennaGainDbi: 10.1 })).toEqual([]);
    expect(stops({ ...node, conductedPowerDbm: 28, antennaGainDbi: 10.2 })).toEqual(['erp-limit']);
    expect(stops({ ...node, frequencyHz: 867.5e6 })).toContain('not-covered');
    const wide: Transmission = { ...node, region: regions.EU868, dataRate: 6, frequencyHz: 866e6 };
    expect(stops(wide)).toEqual(['bandwidth']);
    expect(found(wide, 'bandwidth').message).toContain('50 kHz wider');
  });

  test('China: 17 dBm ERP; the second on the air is from memory', () => {
    const node: Transmission = {
      region: regions.CN470,
      jurisdiction: 'CN',
      dataRate: 1,
      frequencyHz: 470.3e6,
      // M = 31 bytes last 987.136 ms at SF11, one byte more 1069.056 ms.
      applicationBytes: 23,
      ...quiet,
    };
    expect(checkTransmission(node).timeOnAir.totalSeconds).toBeCloseTo(0.987136, 9);
    expect(rules(node)).not.toContain('transmission-duration');
    const long = { ...node, applicationBytes: 24 };
    expect(checkTransmission(long).timeOnAir.totalSeconds).toBeCloseTo(1.069056, 9);
    expect(found(long, 'transmission-duration')).toMatchObject({ severity: 'note', limit: '1 s' });
    expect(found(long, 'transmission-duration').remedies).toContainEqual({ applicationBytes: 23 });
    expect(stops({ ...node, conductedPowerDbm: 17, antennaGainDbi: 2.15 })).toEqual([]);
    expect(stops({ ...node, conductedPowerDbm: 17.1, antennaGainDbi: 2.15 })).toContain('erp-limit');
  });

  test('Australia: everything is from memory, and every check says so', () => {
    const node: Transmission = {
      region: regions.AU915,
      jurisdiction: 'AU',
      dataRate: 2,
      frequencyHz: 915.2e6,
      applicationBytes: 11,
      ...quiet,
    };
    expect(checkTransmission(node).permitted).toBe(true);
    expect(found(node, 'law-from-memory').severity).toBe('note');
    const loud = { ...node, conductedPowerDbm: 31 };
    expect(found(loud, 'eirp-limit')).toMatchObject({ severity: 'note', limit: '30 dBm EIRP' });
    expect(found({ ...node, channelUse: 'hybrid-8' }, 'hopping-channels')).toMatchObject({
      severity: 'note',
      measured: '8 channels',
    });
    expect(rules({ ...node, channelUse: { system: 'hopping', channelCount: 20 } })).not.toContain(
      'hopping-channels',
    );
    // The band's edge is from memory too, but beyond it nothing is known: that stops.
    expect(stops({ ...node, frequencyHz: 914e6 })).toContain('not-covered');
    expect(stops({ ...node, frequencyHz: 915e6 })).toContain('occupied-bandwidth');
  });
});
