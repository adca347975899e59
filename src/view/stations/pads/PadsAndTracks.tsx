/** Glue of what is to come off, and pads, balls, tracks and vias that were hurt: each with its repair. */
import { say } from '../../../base/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, usePresent, useResults } from '../../stores/hooks.ts'
import { bondingWords, GlueField } from './GlueField.tsx'
import { NewPadRepair } from './NewPadRepair.tsx'
import { PadRepairRow } from './PadRepairRow.tsx'
import own from './pads.module.css'

const NONE: readonly string[] = []

export function PadsAndTracks() {
  const model = useBoard()?.model
  const present = usePresent()
  const lift = useResults((results) => results.assessment?.suspects.lift) ?? NONE
  if (model === undefined || present === undefined) return undefined
  const lifted = present.passes.flatMap(({ action, refs }) => (action === 'lift' ? refs : []))
  const refs = [...new Set([...lifted, ...lift])].filter((ref) => model.partByRef.has(ref))
  const repairs = present.padRepairs ?? []
  const torn = present.passes.flatMap(({ found }) =>
    found.flatMap(({ ref, what }) => (what.includes('torn-pad') ? [ref] : [])),
  )
  const unnamed = [...new Set(torn)].filter((ref) => !repairs.some((each) => each.ref === ref))
  const glued = refs.flatMap((ref) => {
    const bonding = model.partByRef.get(ref)?.description.bonding ?? 'none'
    return bonding === 'none' ? [] : [`${ref} ${bondingWords(bonding)}`]
  })
  return (
    <section className={panel.section} aria-label={say('Pads and tracks')}>
      <h3 className={panel.sub}>{say('Pads and tracks')}</h3>
      {refs.length > 0 && (
        <Opening summary={say('Glue: {glued}', { glued: glued.length === 0 ? say('none noted') : glued.join(', ') })}>
          <div className={own.more}>
            {refs.map((ref) => (
              <GlueField key={ref} model={model} id={ref} />
            ))}
          </div>
        </Opening>
      )}
      {unnamed.length > 0 && <p>{say('Torn pad at {unnamed}: note which ball.', { unnamed: unnamed.join(', ') })}</p>}
      {repairs.length > 0 && (
        <ul className={own.repairs} aria-label={say('Torn pads and tracks')}>
          {repairs.map((repair) => (
            <PadRepairRow key={repair.id} model={model} repair={repair} />
          ))}
        </ul>
      )}
      <Opening summary={say('Note what was hurt')} open={unnamed.length > 0}>
        <NewPadRepair model={model} lifted={refs} />
      </Opening>
    </section>
  )
}
