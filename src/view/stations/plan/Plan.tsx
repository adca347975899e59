/** Plan: which part comes off when, with which heat, at what cost; each pass can be looked at and noted, and the rest follows. */
import { say } from '../../../base/index.ts'
import { Tabs } from '@base-ui/react/tabs'
import type { PlanAnswer } from '../../../plan/index.ts'
import { CautionBox, Opening, ProgressBar } from '../../controls/pieces.tsx'
import { Button } from '../../controls/Button.tsx'
import { planAgain, stopPlanning } from './askPlan.ts'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import { StationCautions } from '../../controls/StationCautions.tsx'
import panel from '../../controls/panel.module.css'
import { LimitWarning } from '../../quote/LimitWarning.tsx'
import { useDesk, usePlan, usePresent, useResults, useTally } from '../../stores/hooks.ts'
import { useLookFirst } from '../../stores/measuring.ts'
import { PadsAndTracks } from '../pads/PadsAndTracks.tsx'
import { Alternative } from './Alternative.tsx'
import { EquipmentForm } from './EquipmentForm.tsx'
import { FloorLife } from './FloorLife.tsx'
import { HeatPanel } from './HeatPanel.tsx'
import { Shields } from './Shields.tsx'
import styles from './plan.module.css'
import { ShopForm } from './ShopForm.tsx'
import { Steps } from './Steps.tsx'
import { HeatCounts, Materials } from './Tables.tsx'
import { Worth } from './Worth.tsx'

export function Plan() {
  const look = usePlan((plan) => plan.look)
  return look === undefined ? <WholePlan /> : <HeatPanel key={look.n} look={look} />
}

function WholePlan() {
  const answer = usePlan((plan) => plan.answer)
  const suspects = useResults((results) => results.assessment?.suspects)
  const lift = suspects?.lift
  const first = useLookFirst()
  const present = usePresent()
  return (
    <>
      <section className={panel.section} aria-label={say('Plan')}>
        <div className={panel.heading}>
          <h2>{say('Plan')}</h2>
        </div>
        <LimitWarning />
        <Standing />
        {first.map(({ what, todo }) => (
          <CautionBox key={what} title={what} about={say('Look here before any heat')} reasons={[todo]} />
        ))}
        <Changes />
        {answer !== undefined && <Worth answer={answer} work={first.length > 0 ? 'This work alone' : 'Repairing'} />}
      </section>
      {answer === undefined && <StationCautions station="plan" title={say('Before any heat')} />}
      {answer !== undefined && present !== undefined && <Steps answer={answer} present={present} />}
      <PadsAndTracks />
      <Around answer={answer} lift={lift ?? []} />
    </>
  )
}

/** What stands around the steps, one at a time. */
function Around({ answer, lift }: { readonly answer: PlanAnswer | undefined; readonly lift: readonly string[] }) {
  const bench = (
    <div>
      <EquipmentForm />
      <ShopForm />
      {lift.length > 0 && <FloorLife refs={lift} />}
      <Shields />
    </div>
  )
  if (answer === undefined) return <section className={panel.section}>{bench}</section>
  return (
    <Tabs.Root defaultValue="materials" className={panel.section}>
      <Tabs.List className={styles.tabs} aria-label={say('Around the steps')}>
        {tabs.map(({ value, words }) => (
          <Tabs.Tab key={value} value={value} className={styles.tab}>
            {words}
          </Tabs.Tab>
        ))}
      </Tabs.List>
      <Tabs.Panel value="materials">
        <Materials plan={answer.best} />
      </Tabs.Panel>
      <Tabs.Panel value="heats">
        <HeatCounts plan={answer.best} />
      </Tabs.Panel>
      <Tabs.Panel value="other">
        <Alternative answer={answer} />
      </Tabs.Panel>
      <Tabs.Panel value="bench">
        {bench}
        {answer.notes.length > 0 && (
          <section className={panel.section} aria-label={say('What the plan takes for granted')}>
            <h3 className={panel.sub}>{say('Assumptions')}</h3>
            <Notes lines={answer.notes} />
          </section>
        )}
      </Tabs.Panel>
    </Tabs.Root>
  )
}

const tabs = [
  { value: 'materials', words: say('Materials') },
  { value: 'heats', words: say('Heats left') },
  { value: 'other', words: say('Another way') },
  { value: 'bench', words: say('Bench and prices') },
] as const

/** What is missing, being worked out, or wrong. */
function Standing() {
  const desk = useDesk()
  const state = usePlan((plan) => plan.state)
  const progress = usePlan((plan) => plan.progress)
  const faults = usePlan((plan) => plan.faults)
  const cannot = usePlan((plan) => plan.cannot)
  const missing = useMissing()
  if (missing !== undefined) return <p className={panel.quiet}>{missing}</p>
  return (
    <>
      {state === 'working' && (
        <div className={panel.section}>
          <ProgressBar share={progress?.share} words={progress?.words ?? say('Working it out')} />
          <div className={panel.row}>
            <Button onClick={() => stopPlanning(desk)}>{say('Cancel')}</Button>
          </div>
        </div>
      )}
      {(state === 'stopped' || state === 'failed') && (
        <div className={panel.row}>
          {state === 'stopped' && <span className={styles.small}>{say('Stopped.')}</span>}
          <Button onClick={() => planAgain(desk)}>{say('Plan it again')}</Button>
        </div>
      )}
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {cannot.map(({ ref, missing: lacks }) => (
        <CautionBox key={ref} title={say('{ref} can’t be lifted with this equipment', { ref })} reasons={lacks} open />
      ))}
    </>
  )
}

function useMissing(): string | undefined {
  const tally = useTally()
  const present = usePresent()
  const results = useResults((found) => found)
  if (present !== undefined && present.passes.length > 0) return undefined
  if (tally === undefined) return say('No lift list yet: the plan needs a memory run.')
  if (results.state === 'failed') return say('No lift list: the suspects could not be worked out.')
  const lift = results.assessment?.suspects.lift
  if (lift === undefined) return say('The lift list is being worked out.')
  return lift.length === 0 ? say('Nothing to plan: lifting any part costs more than it saves.') : undefined
}

const CHANGES_SHOWN = 1

function Changes() {
  const changes = usePlan((plan) => plan.changes)
  const more = changes.slice(CHANGES_SHOWN)
  return (
    <div aria-live="polite">
      {changes.length > 0 && (
        <div className={styles.changes}>
          <b>{say('What changed')}</b>
          <Notes lines={changes.slice(0, CHANGES_SHOWN)} />
          {more.length > 0 && (
            <Opening summary={say('{length} more', { length: more.length })}>
              <Notes lines={more} />
            </Opening>
          )}
        </div>
      )}
    </div>
  )
}

const Notes = ({ lines }: { readonly lines: readonly string[] }) => (
  <ul className={styles.notes}>
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
)
