import { checkInteger, checkObject, checkRange, type Finding } from '@finial/units';

/** Two jaws that springs draw together round a ridge, one on each face, and the mast that stands on them. */
export interface RidgeClampQuestion {
  /** Springs, 1 to 20, side by side, all of one kind. */
  readonly springCount: number;
  /** Rate of one spring in newtons per metre, 10 to 1e7. */
  readonly springRateNPerM: number;
  /** How far each spring is tensioned in metres, 0.0001 to 1. */
  readonly springTravelM: number;
  /**
   * How much of the travel is lost as wood dries and parts settle, in metres, 0 or more and below the travel.
   *
   * @defaultValue 0
   */
  readonly settlingM?: number | undefined;
  /** Slope of the faces under the jaws from the level in degrees, 5 to 90: 90 for a beam with upright sides. */
  readonly faceAngleDeg: number;
  /**
   * Slope that the jaws were made for in degrees, 5 to 90.
   *
   * @defaultValue the slope of the faces
   */
  readonly jawAngleDeg?: number | undefined;
  /** Coefficient of friction between jaw and face as a ratio, 0.05 to 1.5, for the wet. */
  readonly frictionRatio: number;
  /** Length of a jaw along the ridge in metres, 0.02 to 5. */
  readonly jawLengthM: number;
  /** Distance in metres, 0.02 to 5, between the middles of the two jaws, across the ridge. */
  readonly jawSpacingM: number;
  /** Force of the wind on the mast in newtons, 0 to 1e6. */
  readonly forceN: number;
  /** Moment of the wind about the ridge in newton metres, 0 to 1e6. */
  readonly momentNm: number;
  /**
   * What slipping must be away from, as a ratio, 1 to 5.
   *
   * @defaultValue 1.5
   */
  readonly safetyRatio?: number | undefined;
}

/** What a ridge clamp holds. */
export interface RidgeClamp {
  /** Pull of all springs in newtons, after settling. */
  readonly preloadN: number;
  /** Pressing force of each jaw on its face in newtons. */
  readonly normalForceN: number;
  /** Wedge under each jaw in degrees so that it lies flat: above 0 the jaw is steeper than the face. */
  readonly shimAngleDeg: number;
  /** Whether the springs push the jaws up and off the ridge by themselves: the faces are too flat for the friction. */
  readonly ridesUp: boolean;
  /** Friction in newtons that each jaw has left along the ridge. */
  readonly spareFrictionN: number;
  /** Force along the ridge at which the clamp slides, in newtons. */
  readonly slideForceN: number;
  /** Moment along the ridge at which the jaws turn on their faces, in newton metres. */
  readonly slipMomentNm: number;
  /** Moment across the ridge at which the jaw on the windward side lifts, in newton metres. */
  readonly liftMomentNm: number;
  /** Least of what holds over what acts, wind along and across, as a ratio; missing where no wind acts. */
  readonly reserveRatio?: number | undefined;
  /** What a person should be told: always a caution. */
  readonly findings: readonly Finding[];
}

const practice = 'friction and statics; factor: common practice, no source';

/**
 * What a clamp holds whose two jaws springs draw together, level, round a ridge. Springs keep their pull as wood moves; a bolt alone does not.
 *
 * Level pull on sloping faces presses and also pushes the jaws uphill. Below a slope of 90° minus the angle of friction they ride up by
 * themselves, and nothing holds: such a roof needs another mount. Pressure is taken as even along a jaw; the weight of the mast, which
 * helps, is left out. Tiles and ridge pieces break under far less than timber bears, and loose ones hold nothing: clamp to structure.
 *
 * @returns forces in newtons, moments in newton metres; the friction is the least certain, by a factor of two between dry and wet
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source statics with Coulomb friction; an evenly pressed line turns at µ N L/4; no published rule is known
 * @example Four springs round a beam with upright sides
 * ```ts
 * import { ridgeClamp } from '@finial/site';
 *
 * const clamp = ridgeClamp({
 *   springCount: 4, springRateNPerM: 20e3, springTravelM: 0.025, faceAngleDeg: 90, frictionRatio: 0.4,
 *   jawLengthM: 0.4, jawSpacingM: 0.2, forceN: 60, momentNm: 40,
 * });
 * clamp.preloadN; // ≈ 2000
 * clamp.slipMomentNm; // ≈ 160
 * clamp.liftMomentNm; // ≈ 160
 * ```
 */
export function ridgeClamp(clamp: RidgeClampQuestion): RidgeClamp {
  const { forceN, momentNm, safetyRatio, faceRad, friction, jawLengthM, jawSpacingM, ...rest } =
    checkedClamp(clamp);
  const { preloadN, shimAngleDeg } = rest;
  const normalForceN = preloadN * Math.sin(faceRad);
  const uphillN = preloadN * Math.cos(faceRad);
  const mostFrictionN = friction * normalForceN;
  const spareFrictionN = Math.sqrt(Math.max(mostFrictionN ** 2 - uphillN ** 2, 0));
  const liftForceN =
    (preloadN * (friction * Math.sin(faceRad) - Math.cos(faceRad))) /
    (Math.sin(faceRad) + friction * Math.cos(faceRad));
  const held = {
    preloadN,
    normalForceN,
    shimAngleDeg,
    ridesUp: uphillN >= mostFrictionN,
    spareFrictionN,
    slideForceN: 2 * spareFrictionN,
    slipMomentNm: (spareFrictionN * jawLengthM) / 2,
    liftMomentNm: Math.max(liftForceN, 0) * jawSpacingM,
  };
  const ratios = [
    ...(forceN > 1e-3 ? [held.slideForceN / forceN] : []),
    ...(momentNm > 1e-3 ? [held.slipMomentNm / momentNm, held.liftMomentNm / momentNm] : []),
  ];
  const reserveRatio = ratios.length === 0 ? undefined : Math.min(...ratios);
  return { ...held, reserveRatio, findings: findingsOf({ ...held, reserveRatio }, safetyRatio) };
}

function checkedClamp(clamp: RidgeClampQuestion) {
  checkObject(clamp, 'clamp');
  const { settlingM = 0, jawAngleDeg = clamp.faceAngleDeg, safetyRatio = 1.5 } = clamp;
  const springs = checkInteger(clamp.springCount, 'springCount', { min: 1, max: 20, unit: 'springs' });
  const rateNPerM = checkRange(clamp.springRateNPerM, 'springRateNPerM', {
    min: 10,
    max: 1e7,
    unit: 'newtons per metre',
  });
  const travelM = checkRange(clamp.springTravelM, 'springTravelM', { min: 1e-4, max: 1, unit: 'metres' });
  checkRange(settlingM, 'settlingM', { min: 0, max: travelM * 0.999, unit: 'metres' });
  const angles = { min: 5, max: 90, unit: 'degrees' };
  const faceAngleDeg = checkRange(clamp.faceAngleDeg, 'faceAngleDeg', angles);
  checkRange(jawAngleDeg, 'jawAngleDeg', angles);
  const size = { min: 0.02, max: 5, unit: 'metres' };
  return {
    preloadN: springs * rateNPerM * (travelM - settlingM),
    shimAngleDeg: jawAngleDeg - faceAngleDeg,
    faceRad: (faceAngleDeg * Math.PI) / 180,
    friction: checkRange(clamp.frictionRatio, 'frictionRatio', { min: 0.05, max: 1.5, unit: 'as a ratio' }),
    jawLengthM: checkRange(clamp.jawLengthM, 'jawLengthM', size),
    jawSpacingM: checkRange(clamp.jawSpacingM, 'jawSpacingM', size),
    forceN: checkRange(clamp.forceN, 'forceN', { min: 0, max: 1e6, unit: 'newtons' }),
    momentNm: checkRange(clamp.momentNm, 'momentNm', { min: 0, max: 1e6, unit: 'newton metres' }),
    safetyRatio: checkRange(safetyRatio, 'safetyRatio', { min: 1, max: 5, unit: 'as a ratio' }),
  };
}

function findingsOf(held: Omit<RidgeClamp, 'findings'>, safetyRatio: number): readonly Finding[] {
  const { ridesUp, reserveRatio, shimAngleDeg } = held;
  const findings: Finding[] = [
    {
      rule: 'ridge-clamp-caution',
      severity: 'note',
      message:
        'A clamp by friction is an estimate: tether the mast besides, look at the springs after the first storm and each season, clamp to structure and ' +
        'not to tiles. The owner of the roof and a licensed practitioner decide.',
      source: 'common practice, no source',
    },
  ];
  if (ridesUp) {
    findings.push({
      rule: 'ridge-clamp-rides-up',
      severity: 'stop',
      message:
        'The springs push the jaws up and off the ridge: the faces are too flat for the friction. Use another mount.',
      source: practice,
    });
  } else if (reserveRatio !== undefined && reserveRatio < safetyRatio) {
    findings.push({
      rule: 'ridge-clamp-slips',
      severity: reserveRatio < 1 ? 'stop' : 'fix',
      message:
        'The clamp slips or lifts, or is too near to it: more pull, longer jaws, or less wind on the mast.',
      measured: `factor ${Number(reserveRatio.toPrecision(3))}`,
      limit: `factor ${safetyRatio}`,
      source: practice,
    });
  }
  if (Math.abs(shimAngleDeg) > 0.5) {
    findings.push({
      rule: 'ridge-clamp-shim',
      severity: 'fix',
      message: `The jaws lie on an edge: fill with wedges of ${Number(Math.abs(shimAngleDeg).toPrecision(3))}°, fixed to the jaw, the thick end ${shimAngleDeg > 0 ? 'uphill' : 'downhill'}.`,
      source: 'geometry',
    });
  }
  return findings;
}
