import { decibelSlack, decibels, reductionDb } from '../figures.js';
import { findingUnder } from '../findingUnder.js';
import type { TransmissionFinding } from '../Transmission.js';
import type { FrameOnAir, PowerLimit } from './Jurisdiction.js';

/** The finding about a limit on power, if the frame is stronger. */
export function powerFindings(limit: PowerLimit, frame: FrameOnAir): TransmissionFinding[] {
  const powerDbm = { ERP: frame.erpDbm, EIRP: frame.eirpDbm, conducted: frame.conductedPowerDbm }[
    limit.quantity
  ];
  const excessDb = powerDbm - limit.limitDbm;
  if (excessDb <= decibelSlack) return [];
  const reduction = reductionDb(excessDb);
  const conductedPowerDbm = frame.conductedPowerDbm - reduction;
  const { advice = '', remedies = [] } = limit.otherwise ?? {};
  const or = advice === '' ? '' : `${advice}, or `;
  const quantity = limit.quantity === 'conducted' ? '' : ` ${limit.quantity}`;
  return [
    findingUnder(limit.citation, {
      rule: limit.rule,
      severity: limit.customary === true ? 'note' : 'stop',
      message: `${limit.wrong(decibels(excessDb))}: ${or}lower the conducted power by ${reduction} dB, to ${decibels(conductedPowerDbm)} dBm`,
      measured: `${decibels(powerDbm)} dBm${quantity}`,
      limit: `${decibels(limit.limitDbm)} dBm${quantity}`,
      remedies: [...remedies, { conductedPowerDbm }],
    }),
  ];
}
