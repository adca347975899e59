/**
 * The one list of cautions by station. A new one is one more entry: station, hazard, sentence, where it is from, and
 * when it holds if not always. Substances carry their own (`src/spill/substance/substances.json`), steps of a plan too
 * (`src/plan/cautions.ts`).
 */
import { say } from '../base/index.ts'
import { type Substance, waysOfMoving } from '../spill/index.ts'
import type { Case } from './schema.ts'
import type { Station } from './stations.ts'

export const hazards = [
  'power',
  'mains',
  'capacitor',
  'live',
  'static',
  'hot',
  'fumes',
  'lead',
  'solvent',
  'moisture',
  'gallium',
  'substance',
  'sharp',
  'waste',
  'model',
  'rules',
] as const
export type Hazard = (typeof hazards)[number]

export interface Caution {
  readonly station: Station
  readonly hazard: Hazard
  /** What is dangerous, in the two or three words that stand in sight; undefined of what is no danger by itself. */
  readonly danger?: string | undefined
  readonly sentence: string
  readonly source: string
}

export type CautionedCase = Pick<
  Case,
  'arrival' | 'marks' | 'substances' | 'measurements' | 'shorts' | 'passes' | 'handBack'
>

/** What of a case decides about cautions. */
export interface CautionFacts {
  readonly caseFile: CautionedCase
  /** On the board as far as it is marked. */
  readonly spilled: readonly Substance[]
}

export interface CautionRule extends Caution {
  readonly when?: (facts: CautionFacts) => boolean
}

const CP = say('common practice, no source')
const ESD = say('ANSI/ESD S20.20-2021, IEC 61340-5-1; the 1 MΩ from memory')
const NIOSH = say('NIOSH Pocket Guide npgd0359: flash point 53 °F closed cup')
const GHS = say('GHS H290 and H318 of gallium; handling: common practice, no source')

const unknownStuff = ({ caseFile, spilled }: CautionFacts): boolean =>
  spilled.length === 0 && ['spill', 'unknown'].includes(caseFile.arrival.accident)

/** Eats aluminium: the gallium alloys, and whatever a user added that does. */
const gallium = ({ spilled }: CautionFacts): boolean =>
  spilled.some(({ id, attacks }) => id.startsWith('gallium') || attacks.some(({ what }) => /alumini?um/i.test(what)))

const liquid = ({ spilled }: CautionFacts): boolean => spilled.some(({ moves }) => waysOfMoving[moves].isLiquid)

const shorted = ({ caseFile: { shorts, measurements } }: CautionFacts): boolean =>
  shorts.length > 0 || measurements.some(({ reading }) => reading.kind === 'short')

const notRepaired = ({ caseFile: { handBack } }: CautionFacts): boolean =>
  handBack.outcome !== undefined && handBack.outcome !== 'repaired'

export const cautionRules: readonly CautionRule[] = [
  {
    station: 'arrival',
    hazard: 'power',
    danger: say('power before it is measured'),
    sentence: say(
      'Do not power the card yet: with liquid, metal or a short on it, power can destroy what still works or start a fire. Measure cold first.',
    ),
    source: CP,
  },
  {
    station: 'arrival',
    hazard: 'substance',
    danger: say('an unknown liquid'),
    sentence: say(
      'Until you know what is on it, gloves and eye cover: coolant can be poisonous, liquid metal harms eyes.',
    ),
    source: say('ethylene glycol: a handbook of engineering data; GHS H318 of gallium'),
    when: unknownStuff,
  },
  {
    station: 'arrival',
    hazard: 'static',
    danger: say('static'),
    sentence: say(
      'Static kills parts without a mark: earthed bench, wrist strap through 1 MΩ, card in a shielding bag.',
    ),
    source: ESD,
  },
  {
    station: 'cold-measuring',
    hazard: 'capacitor',
    danger: say('charged capacitors'),
    sentence: say(
      'Unplug the card and wait. Read its inputs and core in volts first: under 50 mV before an ohmmeter or diode mode goes on. Drain what is left through a resistor, never by a short with a tool.',
    ),
    source: say('common practice, no source; the 50 mV from memory'),
  },
  {
    station: 'cold-measuring',
    hazard: 'static',
    danger: say('static'),
    sentence: say('Earthed bench and wrist strap: a charged probe kills a gate as well as a finger does.'),
    source: ESD,
  },
  {
    station: 'cold-measuring',
    hazard: 'hot',
    danger: say('current into a short'),
    sentence: say(
      'Current sent into a short heats it: hold the supply below what the rail bears, begin with little, stay by it. The spot can burn skin.',
    ),
    source: CP,
    when: shorted,
  },
  {
    station: 'powered-measuring',
    hazard: 'power',
    danger: say('fire'),
    sentence: say(
      'Power on a shorted or wet card burns copper and can start a fire: first a supply with its current limited, a hand at the switch, eyes covered. Smoke, smell or a rising current: off.',
    ),
    source: CP,
  },
  {
    station: 'powered-measuring',
    hazard: 'hot',
    danger: say('burns'),
    sentence: say(
      'First power: 12 V limited to 0.5 to 1 A, a thermal camera on the card. More than 1 A before fans and clocks start, or a part that heats within seconds: off. Such parts burn skin.',
    ),
    source: CP,
  },
  {
    station: 'powered-measuring',
    hazard: 'live',
    danger: say('a slipping probe'),
    sentence: say(
      'A probe that slips shorts a live rail: insulated tips, nothing loose of metal, one hand, the card held fast.',
    ),
    source: CP,
  },
  {
    station: 'powered-measuring',
    hazard: 'mains',
    danger: say('mains'),
    sentence: say(
      'Supply units and open computers hold deadly voltage, also unplugged: leave them closed; that is work for people trained on mains. No wrist strap where mains is open.',
    ),
    source: CP,
  },
  {
    station: 'memory-run',
    hazard: 'power',
    danger: say('overheating under load'),
    sentence: say(
      'The test loads the card for long: only after cold measuring found it safe, with its cooler on, and somebody beside it. Smell, smoke or silence of the fan: off.',
    ),
    source: CP,
  },
  {
    station: 'memory-run',
    hazard: 'mains',
    danger: say('a live computer'),
    sentence: say('Unplug the computer and wait until its lamps are out before the card goes in or comes out.'),
    source: CP,
  },
  {
    station: 'inspection',
    hazard: 'solvent',
    danger: say('solvent vapour'),
    sentence: say(
      'Solvent vapour catches fire (isopropyl alcohol from 12 °C up): no hot tool near, good air, and let it dry fully before heat or power.',
    ),
    source: NIOSH,
  },
  {
    station: 'inspection',
    hazard: 'static',
    sentence: say('Dry brushing and wiping charge the board: earthed bench, wrist strap, dissipative brush.'),
    source: ESD,
  },
  {
    station: 'inspection',
    hazard: 'sharp',
    danger: say('blades'),
    sentence: say(
      'Blades, picks and broken glass cut, and chips fly: eye cover under the microscope, no scraping towards yourself, and no metal tool across live or soft copper.',
    ),
    source: CP,
  },
  {
    station: 'inspection',
    hazard: 'gallium',
    danger: say('liquid metal'),
    sentence: say(
      'Liquid metal: gloves, eye cover, a tray below. Take it up with a swab before any solvent; no tool, foil or case of aluminium near. It stains skin and cloth.',
    ),
    source: GHS,
    when: gallium,
  },
  {
    station: 'inspection',
    hazard: 'substance',
    danger: say('unknown residue'),
    sentence: say('What it is has not been told: gloves and eye cover while you touch or scrape it.'),
    source: CP,
    when: unknownStuff,
  },
  {
    station: 'suspects',
    hazard: 'model',
    sentence: say(
      'The lift list is what the model finds likely from what was entered, not a certainty. Check the reasons before heat goes on the board.',
    ),
    source: say('follows from how it is computed'),
  },
  {
    station: 'suspects',
    hazard: 'hot',
    danger: say('hot air, flux fumes and lead'),
    sentence: say(
      'Lifting means hot air and molten solder: hot parts burn, flux fumes harm the lungs, old joints may hold lead. Only for qualified hands, with extraction and eye protection.',
    ),
    source: CP,
  },
  {
    station: 'plan',
    hazard: 'hot',
    danger: say('burns'),
    sentence: say(
      'Hot air, nozzle and board burn skin for minutes after the heat is off, and set fire to what is near: eye protection, nothing that burns within half a metre.',
    ),
    source: CP,
  },
  {
    station: 'plan',
    hazard: 'fumes',
    danger: say('flux fumes'),
    sentence: say(
      'Flux fume causes asthma, the more the hotter it gets: extract it at the source; a dust mask does not help.',
    ),
    source: 'HSE INDG248',
  },
  {
    station: 'plan',
    hazard: 'lead',
    danger: say('lead'),
    sentence: say('Old or repaired joints may hold lead: wash your hands, do not eat at the bench, wipe dust wet.'),
    source: say('from memory'),
  },
  {
    station: 'plan',
    hazard: 'solvent',
    danger: say('solvent near heat'),
    sentence: say(
      'No solvent near hot tools: let the board cool to hand-warm before you clean, and dry it before heat.',
    ),
    source: NIOSH,
  },
  {
    station: 'plan',
    hazard: 'moisture',
    danger: say('trapped liquid'),
    sentence: say('Liquid trapped under a part boils and bursts joints and bodies: bake first.'),
    source: say('J-STD-033; common practice, no source'),
    when: liquid,
  },
  {
    station: 'plan',
    hazard: 'capacitor',
    danger: say('charged capacitors'),
    sentence: say('Unplugged and its capacitors discharged before hot work: a charged or swollen one can burst.'),
    source: CP,
  },
  {
    station: 'proof',
    hazard: 'power',
    danger: say('a bridge under a refitted part'),
    sentence: say(
      'Measure cold again before the first power after work: a bridge under a refitted part shorts its rail. Then a limited supply, and stay by it.',
    ),
    source: CP,
  },
  {
    station: 'proof',
    hazard: 'hot',
    danger: say('a hot card'),
    sentence: say('Under load the card gets hot enough to burn: cooler fitted, and read temperatures, don’t touch.'),
    source: CP,
  },
  {
    station: 'proof',
    hazard: 'power',
    danger: say('a test left alone'),
    sentence: say('Never leave a running test alone or over night: smell, smoke or a fan gone silent means off.'),
    source: CP,
  },
  {
    station: 'proof',
    hazard: 'mains',
    danger: say('a live computer'),
    sentence: say('Unplug the computer and wait until its lamps are out before the card goes in or comes out.'),
    source: CP,
  },
  {
    station: 'hand-back',
    hazard: 'power',
    danger: say('do not power it'),
    sentence: say('It is not repaired: say in writing that it must not be powered, and why.'),
    source: CP,
    when: notRepaired,
  },
  {
    station: 'hand-back',
    hazard: 'gallium',
    danger: say('traces of liquid metal'),
    sentence: say(
      'Traces of liquid metal can stay under parts: tell the owner to keep aluminium and bare skin off it.',
    ),
    source: GHS,
    when: gallium,
  },
  {
    station: 'hand-back',
    hazard: 'mains',
    sentence: say(
      'Some places ask for an electrical safety test before a repaired device goes back: ask which rules hold where you are.',
    ),
    source: CP,
  },
  {
    station: 'hand-back',
    hazard: 'live',
    danger: say('its first hours of use'),
    sentence: say(
      'Its first hours in the owner’s computer are a test too: ask them to stay by it, and to switch off at smell, smoke or stripes.',
    ),
    source: CP,
  },
  {
    station: 'hand-back',
    hazard: 'static',
    sentence: say('Give it back dry and in a shielding bag.'),
    source: ESD,
  },
  {
    station: 'hand-back',
    hazard: 'waste',
    danger: say('special waste'),
    sentence: say(
      'Swabs, dross, lifted parts and taken-up metal are special waste in many places: keep them apart, wash hands.',
    ),
    source: CP,
  },
]
