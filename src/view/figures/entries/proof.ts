/** Figures of the proof: how often a card that ran clean may still fail. */
import { passesFor } from '../../../case/index.ts'
import { percentAtMost, say } from '../../../base/index.ts'
import type { EntriesOf } from '../entry.ts'

export const proofEntries: EntriesOf<'bound'> = {
  bound: {
    title: say('At most so often, per run'),
    at: ['proof'],
    formula: say(
      'After n error-free runs: at most 1 − 0.05^(1/n) per run, at 95 %; about 3/n. Where runs failed: the chance at which so few failures would be seen in 5 % of such series. Runs wanted for a chance c: ln 0.05 / ln(1 − c), rounded up.',
    ),
    from: [say('Error-free runs since the work'), say('Runs with errors')],
    source: say(
      'J. Hanley and A. Lippman-Hand, If nothing goes wrong, is everything all right? (1983); C. Clopper and E. Pearson, The use of confidence or fiducial limits (1934).',
    ),
    limit: say('Holds for such runs: a hotter card or another test may still fail.'),
    inputs: ({ runs }, { proof }) => {
      if (proof === undefined) return []
      const { clean, failing } = proof.passes
      return [
        { name: say('error-free runs'), value: String(clean) },
        { name: say('runs with errors'), value: String(failing) },
        ...(proof.boundPerPass95 === undefined
          ? []
          : [{ name: say('now at most'), value: percentAtMost(proof.boundPerPass95) }]),
        ...(proof.ruleOfThree95 === undefined ? [] : [{ name: '3/n', value: percentAtMost(proof.ruleOfThree95) }]),
        ...(runs === undefined ? [] : [{ name: say('runs for it'), value: String(runs) }]),
        { name: say('runs for 1 %'), value: String(passesFor(0.01)) },
      ]
    },
  },
}
