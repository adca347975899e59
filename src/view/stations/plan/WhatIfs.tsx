/** Changes to the pass that take one click, each with what it would do in words; one that helps can be kept. */
import { say } from '../../../base/index.ts'
import { useState } from 'react'
import type { HeatRun, WhatIf } from '../../../heat/index.ts'
import { cancelTry, keepShield, tryWhatIf } from './whatIf.ts'
import { Button } from '../../controls/Button.tsx'
import { SelectField } from '../../controls/fields.tsx'
import { ProgressBar } from '../../controls/pieces.tsx'
import { FiguredText } from '../../figures/index.ts'
import panel from '../../controls/panel.module.css'
import { exposedInRun, sortExposed } from './heatFacts.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import type { HeatLook } from '../../stores/planStore.ts'
import styles from './plan.module.css'

const changes: readonly { readonly kind: WhatIf['kind']; readonly words: string }[] = [
  { kind: 'tape', words: say('Tape over it') },
  { kind: 'heat-sink', words: say('Heat sink on it') },
  { kind: 'more-preheat', words: say('More preheat') },
  { kind: 'smaller-nozzle', words: say('Smaller nozzle') },
  { kind: 'other-side', words: say('Other side up') },
]

const LISTED = 24

interface WhatIfsProps {
  readonly look: HeatLook
  readonly run: HeatRun
}

export function WhatIfs({ look, run }: WhatIfsProps) {
  const desk = useDesk()
  const target = look.refs[0] ?? ''
  const board = useBoard()
  const found = exposedInRun(run, look.refs)
  const sorted = board === undefined ? undefined : sortExposed(board.model, found)
  const exposed =
    sorted === undefined ? [] : [...sorted.named.map(({ ref }) => ref), ...sorted.small.flatMap(({ refs }) => refs)]
  const hottest = run.curves.map(({ ref }) => ref).filter((ref) => !look.refs.includes(ref) && !exposed.includes(ref))
  const neighbours = [...exposed, ...hottest].slice(0, LISTED)
  const [chosen, setChosen] = useState<string>()
  const neighbour = chosen !== undefined && neighbours.includes(chosen) ? chosen : neighbours[0]
  const busy = look.tried?.state === 'working'
  return (
    <section className={panel.section} aria-label={say('What if')}>
      <h3 className={panel.sub}>{say('What if')}</h3>
      {neighbour !== undefined && (
        <SelectField
          label={say('Neighbour to shield')}
          value={neighbour}
          options={neighbours.map((ref) => ({ value: ref, words: ref }))}
          onChange={setChosen}
        />
      )}
      <div className={panel.row}>
        {changes.map(({ kind, words }) => (
          <Button
            key={kind}
            disabled={busy || (neighbour === undefined && (kind === 'tape' || kind === 'heat-sink'))}
            onClick={() => void tryWhatIf(desk, kind, target, neighbour)}
          >
            {words}
          </Button>
        ))}
      </div>
      <div aria-live="polite">{look.tried !== undefined && <Tried look={look} target={target} />}</div>
    </section>
  )
}

function Tried({ look, target }: { readonly look: HeatLook; readonly target: string }) {
  const desk = useDesk()
  const kept = usePresent()?.shields ?? []
  const { tried } = look
  if (tried === undefined) return undefined
  if (tried.state === 'working')
    return (
      <div className={panel.section}>
        <ProgressBar share={undefined} words={say('Trying it in the model')} />
        <div className={panel.row}>
          <Button onClick={() => cancelTry(desk)}>{say('Cancel')}</Button>
        </div>
      </div>
    )
  const { shield } = tried
  const isKept =
    shield !== undefined &&
    kept.some((each) => each.target === target && each.ref === shield.ref && each.kind === shield.kind)
  return (
    <div className={styles.tried}>
      <p>
        <b>{tried.words}.</b>
      </p>
      <ul>
        {tried.said.map((sentence) => (
          <li key={sentence}>
            <FiguredText
              words={sentence}
              of={{ kind: 'neighbour-peak', ref: sentence.split(':')[0] ?? target, n: look.n }}
            />
          </li>
        ))}
      </ul>
      {shield !== undefined && (
        <div className={panel.row}>
          <Button disabled={isKept} onClick={() => keepShield(desk, { target, ...shield })}>
            {isKept ? say('Kept in the plan') : say('Keep it in the plan')}
          </Button>
        </div>
      )}
    </div>
  )
}
