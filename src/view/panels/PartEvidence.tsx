/** A part's evidence: does it need lifting and why, its lanes down to the bit, reach, rails, what the package bears. */
import { signatureWords } from '../../case/index.ts'
import { numberWords, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { PartSuspicion } from '../../suspects/index.ts'
import { Bar, Opening } from '../controls/pieces.tsx'
import { Figured, FiguredText, Reasons, WashMayDo } from '../figures/index.ts'
import { useResults, useTally } from '../stores/hooks.ts'
import { useRoughMoney } from '../stores/money.ts'
import { packageFacts, partDetails, reachOf } from '../stores/partFacts.ts'
import { isUntested } from '../stores/tested.ts'
import { percent } from '../stores/words.ts'
import { GlueField } from '../stations/pads/GlueField.tsx'
import { FactRow } from './FactRow.tsx'
import { LaneRows } from './LaneRows.tsx'
import { Picks } from './Picks.tsx'
import { ProofEvidence } from './ProofEvidence.tsx'
import styles from '../controls/panel.module.css'

export function PartEvidence({ model, id }: { readonly model: BoardModel; readonly id: string }) {
  const tally = useTally()
  const suspects = useResults((results) => results.assessment?.suspects)
  const part = model.partByRef.get(id)
  if (part === undefined) return <p>{say('{id} is not on this board.', { id })}</p>
  const suspicion = suspects?.parts.find((entry) => entry.ref === id)
  const tallied = tally?.parts.find((entry) => entry.ref === id)
  const signature = tallied?.signature
  const rails = model.rails.filter((rail) => rail.feeds.includes(id)).map((rail) => rail.name)
  return (
    <>
      <div className={styles.heading}>
        <h3 className={styles.sub}>{id}</h3>
        <span>{packageFacts(part)}</span>
      </div>
      {suspicion !== undefined && tally !== undefined && <Verdict suspicion={suspicion} />}
      {tallied !== undefined && signature !== undefined && (
        <div>
          <p>{signature.sentence}</p>
          {!isUntested(tallied) && (
            <Opening summary={say('The numbers behind “{kind}”', { kind: signatureWords[signature.kind] })}>
              <dl className={styles.facts}>
                {signature.numbers.map(({ name, value }) => (
                  <FactRow key={name} name={name} value={numberWords(Number(value.toPrecision(4)))} />
                ))}
                {signature.stuck !== undefined && <FactRow name={say('reads come back')} value={signature.stuck} />}
              </dl>
            </Opening>
          )}
        </div>
      )}
      <LaneRows model={model} id={id} />
      <ProofEvidence id={id} />
      <ReachRows model={model} id={id} />
      {rails.length > 0 && (
        <div>
          <h3 className={styles.sub}>{say('Rails that feed it')}</h3>
          <Picks kind="rail" ids={rails} />
        </div>
      )}
      <div>
        <h3 className={styles.sub}>{say('Package')}</h3>
        <GlueField model={model} id={id} />
        <dl className={styles.facts}>
          {partDetails(part).map(({ name, value }) => (
            <FactRow key={name} name={name} value={value} />
          ))}
        </dl>
      </div>
    </>
  )
}

function Verdict({ suspicion }: { readonly suspicion: PartSuspicion }) {
  const money = useRoughMoney()
  return (
    <div>
      <div className={styles.heading}>
        <b>{suspicion.lift ? say('Lift it') : say('Leave it')}</b>
        <b>
          <Figured of={{ kind: 'part-chance', ref: suspicion.ref }}>{percent(suspicion.comesOff)}</Figured>
        </b>
      </div>
      <Bar share={suspicion.comesOff} />
      <WashMayDo part={suspicion} />
      <p className={styles.reasons}>
        <Reasons of={suspicion} sentences={suspicion.why} />
      </p>
      <Opening summary={say('How it is calculated')}>
        <div className={styles.working}>
          <p>
            <FiguredText
              words={say(
                'Lifting it costs about {lifted}: minutes, materials, the risk of damage. Leaving it costs about {left}: comebacks. The list takes what is cheaper together.',
                { lifted: money(suspicion.costIfLifted), left: money(suspicion.costIfLeft) },
              )}
              numbers={[money(suspicion.costIfLifted), money(suspicion.costIfLeft)]}
              of={{ kind: 'part-cost', ref: suspicion.ref }}
            />
          </p>
        </div>
      </Opening>
    </div>
  )
}

function ReachRows({ model, id }: { readonly model: BoardModel; readonly id: string }) {
  const assessment = useResults((results) => results.assessment)
  const reached = reachOf(assessment, id)
  if (assessment === undefined || reached === undefined) return undefined
  const regions = model.regions
    .filter((region) => region.part === id)
    .map((region) => ({
      id: region.id,
      name: region.name,
      probability:
        1 -
        assessment.reaches.reduce(
          (missed, { reach }) =>
            missed * (1 - (reach.regions.find((entry) => entry.id === region.id)?.probability ?? 0)),
          1,
        ),
    }))
    .filter((region) => region.probability >= 0.005)
    .toSorted((a, b) => b.probability - a.probability)
  return (
    <div>
      <h3 className={styles.sub}>{say('Reach')}</h3>
      <p>
        {reached < 0.005 ? (
          say('The spill hardly gets here.')
        ) : (
          <FiguredText
            words={say('Chance that the spill reached it: {chance}.', { chance: percent(reached) })}
            of={{ kind: 'reach', of: id }}
          />
        )}
      </p>
      {regions.length > 0 && <RegionFacts regions={regions.slice(0, REGIONS_SHOWN)} />}
      {regions.length > REGIONS_SHOWN && (
        <Opening summary={say('{length} regions less likely', { length: regions.length - REGIONS_SHOWN })}>
          <RegionFacts regions={regions.slice(REGIONS_SHOWN)} />
        </Opening>
      )}
    </div>
  )
}

const REGIONS_SHOWN = 6

interface RegionFactsProps {
  readonly regions: readonly { readonly id: string; readonly name: string; readonly probability: number }[]
}

function RegionFacts({ regions }: RegionFactsProps) {
  return (
    <dl className={styles.facts}>
      {regions.map((region) => (
        <FactRow
          key={region.name}
          name={say('region {name}', { name: region.name })}
          value={<Figured of={{ kind: 'reach', of: region.id }}>{percent(region.probability)}</Figured>}
        />
      ))}
    </dl>
  )
}
