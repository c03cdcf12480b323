/** Standard acceleration of gravity in metres per second squared (ISO 80000-3; exact by convention). */
export const standardGravity = 9.80665;
