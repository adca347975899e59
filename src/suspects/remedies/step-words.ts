/** Steps of a proposal, and how the bench says them. */
import { joined, say } from '../../base/index.ts'
import { placeSaid } from '../causes/places.ts'

/** `lift` is to take off and look under; `run-again` is the memory test once more. */
export type ProposedAction =
  | 'check'
  | 'find-short'
  | 'take-up'
  | 'wash'
  | 'lift'
  | 'reball'
  | 'replace'
  | 'repair-around'
  | 'run-again'
  | 'hand-back'
  | 'return'

export interface ProposedStep {
  readonly action: ProposedAction
  /** Parts, or what else is worked on, in the board's words. */
  readonly refs: readonly string[]
  /** What then depends on what is seen, in words; empty where the next step follows in any case. */
  readonly next: string
}

/** What is no part: a rail, a track, or else what a tool hit. */
const besideSaid = (at: string): string =>
  /^(?:rail|branch|the track of) /.test(at) ? placeSaid(at) : say('what the slip {at} hit', { at })

/** The step as the bench orders it, without a full stop; names its parts or places where it has any. */
export function proposedWords({ action, refs }: Pick<ProposedStep, 'action' | 'refs'>): string {
  const names = joined(refs)
  switch (action) {
    case 'check':
      return say('Check {names} first', { names: joined(refs.map(placeSaid)) })
    case 'find-short':
      return say('Find what shorts {names}, and take it off', { names: joined(refs.map(besideSaid)) })
    case 'take-up':
      return say('Take up all metal that can be seen, by hand')
    case 'wash':
      return say('Wash the card and dry it')
    case 'lift':
      return say('Lift {names}', { names })
    case 'reball':
      return say('Clean, reball and refit {names}', { names })
    case 'replace':
      return refs.length > 1 ? say('Fit new parts for {names}', { names }) : say('Fit a new {names}', { names })
    case 'repair-around':
      return say('Find the fault on {names} and repair it', { names: joined(refs.map(besideSaid)) })
    case 'run-again':
      return say('Run the memory test again')
    case 'hand-back':
      return say('Hand it back')
    case 'return':
      return say('Send it back unrepaired')
  }
}
