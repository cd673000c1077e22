/**
 * What a panel of the inside cut and of what voltage and protection leave shows, percent: all that
 * they may leave, and a cut that yaw assist lowers by the 60 % it may have authority for.
 */
export const CUT_RANGE: [number, number] = [-62, 102];
