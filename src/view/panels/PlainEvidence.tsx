/** Evidence of a rail, a region or a net: what it joins. */
import { decimals, plainly, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { Figured } from '../figures/index.ts'
import { useResults } from '../stores/hooks.ts'
import { percent } from '../stores/words.ts'
import { FactRow } from './FactRow.tsx'
import { MAX_PICKS, Picks } from './Picks.tsx'
import styles from '../controls/panel.module.css'

interface ModelAndId {
  readonly model: BoardModel
  readonly id: string
}

export function RailEvidence({ model, id }: ModelAndId) {
  const rail = model.rails.find((entry) => entry.name === id)
  if (rail === undefined) return <p>{say('{id} is not on this board.', { id })}</p>
  const { ohmsToGround } = rail
  return (
    <>
      <h3 className={styles.sub}>{say('Rail {id}', { id })}</h3>
      <dl className={styles.facts}>
        {rail.nominalV !== undefined && (
          <FactRow
            name={say('nominal')}
            value={`${plainly(rail.nominalV)} V${rail.tolerancePct === undefined ? '' : ` ± ${plainly(rail.tolerancePct)} %`}`}
          />
        )}
        {ohmsToGround !== undefined && (
          <FactRow
            name={say('to ground, usual')}
            value={say('{lowOhm} to {highOhm} Ω ({from})', {
              lowOhm: ohmsToGround.lowOhm,
              highOhm: ohmsToGround.highOhm,
              from: ohmsToGround.from,
            })}
          />
        )}
        {rail.branches.map((branch) => (
          <FactRow
            key={branch.name}
            name={say('branch {name}', { name: branch.name })}
            value={branch.feeds.join(', ')}
          />
        ))}
      </dl>
      {rail.stages.length > 0 && (
        <>
          <h3 className={styles.sub}>{say('Made by')}</h3>
          <Picks kind="part" ids={rail.stages} />
        </>
      )}
      <h3 className={styles.sub}>{say('Feeds')}</h3>
      <Picks kind="part" ids={rail.feeds} />
    </>
  )
}

const servedWords: Readonly<Record<'lane' | 'command' | 'power', string>> = {
  lane: say('lanes'),
  command: say('command'),
  power: say('power'),
}

export function RegionEvidence({ model, id }: ModelAndId) {
  const assessment = useResults((results) => results.assessment)
  const region = model.regionById.get(id)
  if (region === undefined) return <p>{say('{id} is not on this board.', { id })}</p>
  const reached = Math.max(
    0,
    ...(assessment?.reaches ?? []).map(({ reach }) => reach.regions.find((entry) => entry.id === id)?.probability ?? 0),
  )
  return (
    <>
      <h3 className={styles.sub}>{say('Region {id}', { id })}</h3>
      <dl className={styles.facts}>
        <FactRow name={say('serves')} value={servedWords[region.role]} />
        <FactRow name={say('area')} value={say('{areaMm2} mm²', { areaMm2: decimals(region.areaMm2, 1) })} />
        <FactRow
          name={say('its outline is')}
          value={region.from === 'package' ? say('from the package’s ball map') : region.from}
        />
        {assessment !== undefined && assessment.reaches.length > 0 && (
          <FactRow
            name={say('chance it was reached')}
            value={<Figured of={{ kind: 'reach', of: id }}>{percent(reached)}</Figured>}
          />
        )}
      </dl>
      <Picks kind="part" ids={[region.part]} />
      <h3 className={styles.sub}>{say('Lanes')}</h3>
      <Picks kind="lane" ids={region.lanes} />
    </>
  )
}

export function NetEvidence({ model, id }: ModelAndId) {
  const pads = model.parts.flatMap((part) =>
    part.pads.filter((pad) => pad.net === id).map((pad) => `${part.ref} ${pad.number}`),
  )
  const refs = [...new Set(pads.map((pad) => pad.slice(0, pad.indexOf(' '))))]
  return (
    <>
      <h3 className={styles.sub}>{say('Net {id}', { id })}</h3>
      <p>
        {say('Joins')} {pads.slice(0, MAX_PICKS).join(', ')}
        {pads.length > MAX_PICKS && say(' and {length} more pads', { length: pads.length - MAX_PICKS })}.
      </p>
      <Picks kind="part" ids={refs} />
    </>
  )
}
