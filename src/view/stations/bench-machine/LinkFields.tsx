/** Width and rate of the link to the host, beside what slot and card offer. */
import { say } from '../../../base/index.ts'
import { type BenchPhase, linkRates, linkWidths, type Look } from '../../../case/index.ts'
import { Choice, SelectField } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { editLook } from './edit.ts'

type Link = NonNullable<Look['link']>

const NONE = ''
const widths = [
  { value: NONE, words: say('not noted') },
  ...linkWidths.toReversed().map((lanes) => ({ value: String(lanes), words: `×${lanes}` })),
]
const rates = [
  { value: NONE, words: say('not noted') },
  ...linkRates.toReversed().map((rate) => ({ value: String(rate), words: `${rate} GT/s` })),
]

const readings = [
  { value: 'idle', words: say('Idle') },
  { value: 'load', words: say('Under load') },
  { value: 'unknown', words: say('Not said') },
] as const

const widthOf = (typed: string): Link['lanes'] => linkWidths.find((width) => String(width) === typed)
const rateOf = (typed: string): Link['rate'] => linkRates.find((rate) => String(rate) === typed)

export function LinkFields({ look, phase }: { readonly look: Look; readonly phase: BenchPhase }) {
  const desk = useDesk()
  const link: Link = look.link ?? { readAt: 'unknown' }
  const edit = (change: Partial<Link>): void =>
    editLook(desk, phase, (now) => ({ ...now, link: { ...(now.link ?? { readAt: 'unknown' }), ...change } }))
  return (
    <>
      <div className={styles.two}>
        <SelectField
          label={say('Link width')}
          value={String(link.lanes ?? NONE)}
          options={widths}
          onChange={(typed) => edit({ lanes: widthOf(typed) })}
        />
        <SelectField
          label={say('Slot and card offer')}
          value={String(link.offeredLanes ?? NONE)}
          options={widths}
          onChange={(typed) => edit({ offeredLanes: widthOf(typed) })}
        />
        <SelectField
          label={say('Link speed')}
          value={String(link.rate ?? NONE)}
          options={rates}
          onChange={(typed) => edit({ rate: rateOf(typed) })}
        />
        <SelectField
          label={say('Speed that both offer')}
          value={String(link.offeredRate ?? NONE)}
          options={rates}
          onChange={(typed) => edit({ offeredRate: rateOf(typed) })}
        />
      </div>
      <Choice label={say('Read')} value={link.readAt} options={readings} onChange={(readAt) => edit({ readAt })} />
    </>
  )
}
