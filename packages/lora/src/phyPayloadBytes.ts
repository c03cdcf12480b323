import { checkInteger, checkObject } from '@finial/units';

/** What a LoRaWAN data frame carries. */
export interface DataFrame {
  /** Bytes of the application, 0 to 242, less those of `fOptsBytes`. */
  readonly applicationBytes: number;
  /** Bytes of MAC commands in the header (FOpts), 0 to 15; 0 unless given. */
  readonly fOptsBytes?: number | undefined;
}

/** MHDR 1, DevAddr 4, FCtrl 1, FCnt 2, FPort 1, MIC 4. */
const overheadBytes = 13;

/** What the chip can send in one frame. */
const longestPhyPayloadBytes = 255;

/**
 * Bytes of the whole LoRaWAN data frame (PHYPayload) that carries so many application bytes.
 *
 * The port byte is counted always, although a frame without application bytes may leave it out.
 *
 * @returns 13 bytes more than application and MAC commands together; exact
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`: a count outside its range, or more than
 * 255 bytes together; `wrong-type`
 * @source TS001-1.0.4, section 4 (constants confirmed in MAC stack sources)
 * @example
 * ```ts
 * import { phyPayloadBytes } from '@finial/lora';
 *
 * phyPayloadBytes({ applicationBytes: 11 }); // → 24
 * ```
 */
export function phyPayloadBytes(frame: DataFrame): number {
  checkObject(frame, 'frame');
  const { fOptsBytes = 0 } = frame;
  checkInteger(fOptsBytes, 'fOptsBytes', { min: 0, max: 15, unit: 'bytes' });
  const applicationBytes = checkInteger(frame.applicationBytes, 'applicationBytes', {
    min: 0,
    max: longestPhyPayloadBytes - overheadBytes - fOptsBytes,
    unit: 'bytes',
  });
  return overheadBytes + fOptsBytes + applicationBytes;
}
