/** What the spill room assumes where nothing was measured, each with its reason. All of it is `common practice, no source`. */
import { say } from '../base/index.ts'

export const spillAssumptions = {
  /**
   * How often nothing gets under a body that a liquid has come to: flux, glue or old residue shuts the gap, or the front
   * is held at the rim. Bodies are independent of each other.
   */
  shutGapChance: {
    value: 0.15,
    because: say(
      'Flux residue, corner glue and dirt shut gaps that no drawing shows. Against a simulation of damaged cards that was not made with this model, reaches that were called certain held about four times in five.',
    ),
  },
  /**
   * Standard deviation of the logarithm of the area that a liquid covers, when its volume and its contact angle are known:
   * a front is no circle.
   */
  frontSdLog: {
    value: 0.2,
    because: say(
      'A front fingers, is held by silk print and vias, and stands a tenth nearer or farther than an even film would; stand-offs differ by about as much.',
    ),
  },
  /** Half of a 90 % range in degrees about a contact angle that comes without one. */
  contactAngleRangeDeg: {
    value: 10,
    because: say('The ranges of the shipped liquids are this wide: cleanliness of the mask decides.'),
  },
  /** Standard deviation of the logarithm of a film thickness that comes without a range. */
  filmSdLog: { value: 0.4, because: say('A smear is by half thinner or thicker from place to place.') },
  /** Of a substance that stays where it was smeared and brings no figures of its own. */
  pressing: {
    value: { chance: 0.5, pushMm: 3, pushSdLog: 0.5 },
    because: say(
      'Such substances come from under a cooler, and a cooler that goes on again presses out what lies beside it.',
    ),
  },
} as const
