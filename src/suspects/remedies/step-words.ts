/** Steps of a proposal in the words of the bench. */
import { joined } from '../../base/index.ts'
import type { ProposedStep } from './proposal.ts'

export function proposedWords({ action, refs }: Pick<ProposedStep, 'action' | 'refs'>): string {
  const names = joined(refs)
  switch (action) {
    case 'check':
      return `Check ${names} first`
    case 'wash':
      return 'Wash the card and dry it'
    case 'lift':
      return `Lift ${names} and look under ${refs.length > 1 ? 'each' : 'it'}`
    case 'reball':
      return `Clean, reball and refit ${names}`
    case 'replace':
      return `Fit a new ${names}`
    case 'repair-around':
      return `Find the fault on ${names} and repair it`
    case 'run-again':
      return 'Run the memory test again'
    case 'hand-back':
      return 'Hand it back'
    case 'return':
      return 'Send it back unrepaired'
  }
}
