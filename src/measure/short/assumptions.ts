/** What the search for a short takes for granted, each with its reason. */
export const shortAssumptions = {
  /** Annealed copper of 100 % IACS at 20 °C, ohm metre. IEC 60028 (1925): 0.017241 ohm mm2 per m. */
  copperOhmM: 1.7241e-8,
  /** Weight of a plane whose board does not say it: 1 oz per square foot. Common practice, no source. */
  planeThicknessUm: 35,
  /**
   * The copper's resistance is known within this factor, as standard deviation of its natural logarithm: holes through
   * the plane, plating, temperature. Common practice, no source.
   */
  scaleSdLog: 0.25,
  /** The same where somebody measured the resistance per square. Common practice, no source. */
  measuredScaleSdLog: 0.05,
  /**
   * What the drawn shape of the copper leaves out, as a share of the drop over one square (current times resistance per
   * square): standard deviation that adds to the meter's at each reading. Common practice, no source.
   */
  drawnShapeShare: 0.02,
  assumedShapeShare: 0.1,
  /** How far assumed copper reaches beyond the rail's parts, mm. Common practice, no source. */
  assumedMarginMm: 2,
  /** Copper keeps so far from holes and from the board's edge, mm. Common practice, no source. */
  clearanceMm: 0.3,
  /** A point counts as on the copper up to so far from it: pads hang on a plane by vias, mm. Common practice, no source. */
  snapMm: 3,
  /**
   * So near to where the current goes in, a reading is the contact's own drop, which its unknown width decides, mm. Common
   * practice, no source.
   */
  contactMm: 2,
  /**
   * With the short so near to a probe, or within the same cell, the reading depends on the short's own width: it is then
   * looser by the drop over a factor e in distance, mm. Common practice, no source.
   */
  nearShortMm: 1,
  /** A part is suspected for copper under it and so far around it, mm. Common practice, no source. */
  nearPartMm: 1,
} as const

/** Resistance per square of copper of a thickness, milliohm at 20 °C. */
export const sheetMilliohmOf = (thicknessUm: number): number =>
  (shortAssumptions.copperOhmM / (thicknessUm * 1e-6)) * 1e3
