/** What data names by one word of its own, in words that people read: sides, kinds of parts, states, answers. */
import { say } from '../base/index.ts'
import type { PartKind, Side } from '../board/index.ts'
import type { Signature } from '../report/index.ts'
import type { Mark } from '../spill/index.ts'
import type { Look } from './bench-machine.ts'
import type { partStates, pinOnes } from './bins.ts'
import type { followUpAnswers } from './follow-up.ts'
import type { consentKinds } from './intake.ts'
import type { padHurts } from './pad-repairs.ts'
import type { PadMeaning } from './pad-repairs/meaning.ts'
import type { outcomes } from './schema.ts'
import type { answeredHow, quoteAnswers } from './quote/schema.ts'
import type { stockKinds } from './stock/schema.ts'
import type { visitStates } from './visit.ts'

type Words<T extends string> = Readonly<Record<T, string>>

export const sideWords: Words<Side> = { top: say('top'), bottom: say('bottom') }

export const partKindWords: Words<PartKind> = {
  core: say('core'),
  memory: say('memory'),
  'power-stage': say('power stage'),
  controller: say('controller'),
  connector: say('connector'),
  inductor: say('inductor'),
  capacitor: say('capacitor'),
  other: say('other'),
}

export const markKindWords: Words<Mark['kind']> = {
  spill: say('spill'),
  residue: say('residue'),
  film: say('film'),
  corrosion: say('corrosion'),
  clean: say('clean spot'),
  slip: say('slip'),
  dam: say('dam'),
  note: say('note'),
}

/** What the errors of a part look like. */
export const signatureWords: Words<Signature['kind']> = {
  clean: say('clean'),
  cells: say('cells'),
  channel: say('channel'),
  package: say('package'),
  sparse: say('sparse'),
  line: say('line'),
  byte: say('byte'),
}

export const visitWords: Words<(typeof visitStates)[number]> = {
  arrived: say('arrived'),
  'looked over': say('looked over'),
  judged: say('judged'),
  'in work': say('in work'),
  proving: say('proving'),
  'handed back': say('handed back'),
}

export const outcomeWords: Words<(typeof outcomes)[number]> = {
  repaired: say('repaired'),
  'partly repaired': say('partly repaired'),
  'not repaired': say('not repaired'),
  'not worth repairing': say('not worth repairing'),
}

export const quoteAnswerWords: Words<(typeof quoteAnswers)[number]> = {
  open: say('not answered'),
  agreed: say('agreed'),
  declined: say('declined'),
}

export const answeredHowWords: Words<(typeof answeredHow)[number]> = {
  'in person': say('in person'),
  'by phone': say('by phone'),
  'by message': say('by message'),
  'in writing': say('in writing'),
}

export const consentKindWords: Words<(typeof consentKinds)[number]> = {
  diagnosis: say('diagnosis'),
  heat: say('heat'),
  data: say('data'),
}

export const stockKindWords: Words<(typeof stockKinds)[number]> = {
  core: say('core'),
  memory: say('memory'),
  'power stage': say('power stage'),
  'other part': say('other part'),
  material: say('material'),
}

export const pinOneWords: Words<(typeof pinOnes)[number]> = {
  'upper left': say('upper left'),
  'upper right': say('upper right'),
  'lower left': say('lower left'),
  'lower right': say('lower right'),
}

export const partStateWords: Words<(typeof partStates)[number]> = {
  good: say('good'),
  'not sure': say('not sure'),
  bad: say('bad'),
}

export const padHurtWords: Words<(typeof padHurts)[number]> = {
  'pad torn': say('pad torn'),
  'ball lost': say('ball lost'),
  'track cut': say('track cut'),
  via: say('via'),
}

export const carriesWords: Words<PadMeaning['carries']> = {
  ground: say('ground'),
  supply: say('supply'),
  data: say('data'),
  control: say('control'),
  'not connected': say('not connected'),
  unknown: say('not known'),
}

export const fanWords: Words<Exclude<Look['fans'], 'unknown'>> = {
  'all turn': say('all turn'),
  'some stand': say('some stand'),
  'none turns': say('none turns'),
  'no fans': say('no fans'),
}

export const followUpWords: Words<(typeof followUpAnswers)[number]> = {
  works: say('works'),
  'same fault back': say('same fault back'),
  'other fault': say('other fault'),
  'not reached': say('not reached'),
}
