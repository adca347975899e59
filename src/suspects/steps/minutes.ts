/** What the steps of a technician take, beside lifts and checks (common practice, no source). */

/** A run of the memory test after work, with the card put together for it. */
export const MINUTES_A_RUN = 15
/** Going into a rail or a track and mending it, beside the run. */
export const MINUTES_TO_PUT_RIGHT = 10
