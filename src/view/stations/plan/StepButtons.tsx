/** What can be done with a step: look at its heat, or say what became of it and what lay under the part. */
import { say } from '../../../base/index.ts'
import { Check, Flame, SkipForward, X } from 'lucide-react'
import { useState } from 'react'
import type { Found, PassEntry, PlanStep } from '../../../plan/index.ts'
import { lookAtHeat } from './askHeat.ts'
import { logPass, logTick } from './askPlan.ts'
import { Button } from '../../controls/Button.tsx'
import { NumberField, TextField, Tick } from '../../controls/fields.tsx'
import { useDesk, usePlan, usePresent } from '../../stores/hooks.ts'
import { BinFields, BinLines } from '../bins/BinFields.tsx'
import { hasHeat } from './planWords.ts'
import panel from '../../controls/panel.module.css'
import styles from './plan.module.css'

type Outcome = PassEntry['outcome']

const outcomes: readonly { readonly outcome: Outcome; readonly words: string; readonly Icon: typeof Check }[] = [
  { outcome: 'done', words: say('Done'), Icon: Check },
  { outcome: 'failed', words: say('Failed'), Icon: X },
  { outcome: 'skipped', words: say('Skip'), Icon: SkipForward },
]

export function StepButtons({ step, title }: { readonly step: PlanStep; readonly title: string }) {
  const desk = useDesk()
  const [open, setOpen] = useState<Outcome>()
  const action = step.action === 'lift' || step.action === 'refit' ? step.action : undefined
  return (
    <>
      <div className={styles.outcomes}>
        {action === undefined && <TickButtons step={step} title={title} />}
        {action !== undefined &&
          outcomes.map(({ outcome, words, Icon }) => (
            <Button
              key={outcome}
              tone={open === outcome || (open === undefined && outcome === 'done') ? 'strong' : 'plain'}
              aria-expanded={open === outcome}
              aria-label={say('{words}: step {n}, {title}', { words, n: step.n, title })}
              onClick={() => setOpen(open === outcome ? undefined : outcome)}
            >
              <Icon size={15} aria-hidden="true" /> {words}
            </Button>
          ))}
        {hasHeat(step) && (
          <Button
            tone="quiet"
            onClick={() => lookAtHeat(desk, step)}
            aria-label={say('Heat of step {n}, {title}', { n: step.n, title })}
          >
            <Flame size={15} aria-hidden="true" /> {say('Heat')}
          </Button>
        )}
      </div>
      {action !== undefined && open !== undefined && (
        <PassForm step={step} action={action} outcome={open} onDone={() => setOpen(undefined)} />
      )}
    </>
  )
}

/** Bench work without heat is noted with one click. */
function TickButtons({ step, title }: { readonly step: PlanStep; readonly title: string }) {
  const desk = useDesk()
  return outcomes.flatMap(({ outcome, words, Icon }) =>
    outcome === 'failed'
      ? []
      : [
          <Button
            key={outcome}
            tone={outcome === 'done' ? 'strong' : 'plain'}
            aria-label={say('{words}: step {n}, {title}', { words, n: step.n, title })}
            onClick={() => logTick(desk, step, outcome)}
          >
            <Icon size={15} aria-hidden="true" /> {words}
          </Button>,
        ],
  )
}

const findings: readonly { readonly what: Found; readonly words: string }[] = [
  { what: 'clean', words: say('clean and dry') },
  { what: 'wet', words: say('wet or greasy') },
  { what: 'metal', words: say('metal') },
  { what: 'corroded', words: say('corroded') },
  { what: 'torn-pad', words: say('a torn pad') },
]

const LIKELY_PEAK_C = 235

/** The plan fits new ones, or new ones were made ready: on the bill they are not forgotten. */
function useIsNew(refs: readonly string[]): boolean {
  const planned = usePlan(({ answer }) => answer?.best.steps)
  const ticks = usePresent()?.ticks
  const isNew = ({ action, refs: those }: { readonly action: string; readonly refs: readonly string[] }): boolean =>
    action === 'replace' && those.some((ref) => refs.includes(ref))
  return planned?.some(isNew) === true || ticks?.some(isNew) === true
}

interface PassFormProps {
  readonly step: PlanStep
  readonly action: PassEntry['action']
  readonly outcome: Outcome
  readonly onDone: () => void
}

function PassForm({ step, action, outcome, onDone }: PassFormProps) {
  const desk = useDesk()
  const [peak, setPeak] = useState<number>()
  const [found, setFound] = useState<ReadonlyMap<string, readonly Found[]>>(new Map())
  const asNew = useIsNew(step.refs)
  const [replaced, setReplaced] = useState(asNew)
  const [note, setNote] = useState('')
  const looked = outcome === 'done' && action === 'lift'
  const turn = (ref: string, what: Found, on: boolean): void => {
    const others = (found.get(ref) ?? []).filter((each) => each !== what && (what !== 'clean' || !on))
    const kept = on && what !== 'clean' ? others.filter((each) => each !== 'clean') : others
    setFound(new Map(found).set(ref, on ? [...kept, what] : kept))
  }
  const write = (): void => {
    logPass(desk, {
      action,
      refs: [...step.refs],
      outcome,
      ...(peak === undefined ? {} : { peakC: peak }),
      measured: [],
      found: looked ? [...found].flatMap(([ref, what]) => (what.length === 0 ? [] : [{ ref, what: [...what] }])) : [],
      replaced: action === 'refit' && outcome === 'done' && replaced,
      ...(note.trim() === '' ? {} : { note: note.trim() }),
    })
    onDone()
  }
  return (
    <div className={styles.log} role="group" aria-label={say('What became of step {n}', { n: step.n })}>
      {outcome !== 'skipped' && (
        <>
          <Tick
            label={say('The peak was measured')}
            checked={peak !== undefined}
            onChange={(on) => setPeak(on ? LIKELY_PEAK_C : undefined)}
          />
          {peak !== undefined && (
            <NumberField
              label={say('Real peak at the joint')}
              unit="°C"
              min={0}
              max={600}
              value={peak}
              onChange={setPeak}
            />
          )}
        </>
      )}
      {looked &&
        step.refs.map((ref) => (
          <fieldset key={ref}>
            <legend className={styles.legend}>{say('Found under {ref}', { ref })}</legend>
            {findings.map(({ what, words }) => (
              <Tick
                key={what}
                label={words}
                checked={found.get(ref)?.includes(what) ?? false}
                onChange={(on) => turn(ref, what, on)}
              />
            ))}
          </fieldset>
        ))}
      {looked && <BinFields refs={step.refs} />}
      {action === 'refit' && <BinLines refs={step.refs} />}
      {action === 'refit' && outcome === 'done' && (
        <Tick label={say('A new part was fitted')} checked={replaced} onChange={setReplaced} />
      )}
      <TextField label={say('Note')} value={note} maxLength={2000} onChange={setNote} />
      <div className={panel.row}>
        <Button tone="strong" onClick={write}>
          {say('Record it and plan the rest')}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {say('Not yet')}
        </Button>
      </div>
    </div>
  )
}
