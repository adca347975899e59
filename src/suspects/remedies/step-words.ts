/** Steps of a proposal in the words of the bench. */
import { joined } from '../../base/index.ts'
import type { ProposedStep } from './proposal.ts'

export function proposedWords({ action, refs }: Pick<ProposedStep, 'action' | 'refs'>): string {
  const names = joined(refs)
  switch (action) {
    case 'check':
      return `Check ${names} first`
    case 'take-up':
      return 'Take up all metal that can be seen, by hand'
    case 'wash':
      return 'Wash the card and dry it'
    case 'lift':
      return `Lift ${names}`
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
