/** Spill: where it was, what and how much, which way was down; what it comes to; and the cautions of the substance. */
import { Crosshair } from 'lucide-react'
import { decimals, type Fault, joined, say } from '../../../base/index.ts'
import { type BoardModel, isSmallKind } from '../../../board/index.ts'
import { type Mark, type ReachResult, type SpillMark, substanceOf, usualOf } from '../../../spill/index.ts'
import { addMark, editSpill, firstSubstance } from '../../actions/edit.ts'
import { toggleTool } from '../../actions/tools.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { FiguredText } from '../../figures/index.ts'
import { useBoard, useDesk, usePresent, useResults, useScreen } from '../../stores/hooks.ts'
import { toolStoreOf, useTools } from '../../stores/toolStore.ts'
import { amountWords, percent } from '../../stores/words.ts'
import { MarkList } from '../marks/MarkList.tsx'
import { SpillFields } from './SpillFields.tsx'
import { SubstanceForm } from './SubstanceForm.tsx'
import { SubstanceTiles } from './SubstanceTiles.tsx'

const noFaults: readonly Fault[] = []

export function Spill() {
  const desk = useDesk()
  const present = usePresent()
  const box = useBoard()?.model.box
  const tool = useScreen((screen) => screen.tool)
  const selection = useScreen((screen) => screen.selection)
  const next = useTools((tools) => tools.nextSubstance)
  const faults = useResults((results) => results.assessment?.faults ?? noFaults)
  if (present === undefined) return undefined
  const spills = present.marks.filter((mark) => mark.kind === 'spill')
  const dams = present.marks.filter((mark) => mark.kind === 'dam')
  const nameOf = (mark: Mark): string => {
    if (mark.kind !== 'spill') return say('Dam')
    const substance = substanceOf(mark.substance, present.substances)?.name ?? mark.substance
    return `${substance.split(',')[0] ?? substance}, ${amountWords(mark.amount)}`
  }
  const target = spills.find(({ id }) => selection?.kind === 'mark' && selection.id === id) ?? spills.at(-1)
  const chosen = target?.substance ?? next ?? firstSubstance(present)
  const choose = (id: string): void => {
    if (target === undefined) toolStoreOf(desk).setState({ nextSubstance: id })
    else editSpill(desk, target.id, { substance: id, ...usualOf(substanceOf(id, present.substances)) })
  }
  const middle = { x: ((box?.minX ?? 0) + (box?.maxX ?? 0)) / 2, y: ((box?.minY ?? 0) + (box?.maxY ?? 0)) / 2 }
  return (
    <section className={styles.section} aria-label={say('Spill')}>
      <div className={styles.heading}>
        <h2>{say('Spill')}</h2>
      </div>
      <SubstanceTiles own={present.substances} chosen={chosen} onChoose={choose} />
      <div className={styles.row}>
        <Button
          tone={tool === 'spill' ? 'strong' : 'plain'}
          aria-pressed={tool === 'spill'}
          aria-keyshortcuts="S"
          onClick={() => toggleTool(desk, 'spill')}
        >
          <Crosshair size={15} aria-hidden="true" /> {say('Point at it')}
        </Button>
        <Button onClick={() => addMark(desk, { kind: 'spill', side: 'top', at: middle })}>
          {say('Type its place')}
        </Button>
      </div>
      {spills.length > 0 && <StationCautions station="spill" title={say('Handling it')} />}
      <MarkList
        label={say('Spills and dams')}
        marks={[...spills, ...dams]}
        nameOf={nameOf}
        fieldsOf={(mark) =>
          mark.kind === 'spill' ? (
            <SpillFields mark={mark} />
          ) : (
            <p className={styles.quiet}>{say('Drag its corners on the sheet.')}</p>
          )
        }
      />
      {faults.length > 0 && (
        <ul className={files.faults} aria-label={say('What could not be worked out')}>
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {spills.map((mark) => (
        <Outcome key={mark.id} mark={mark} named={spills.length > 1} />
      ))}
      <Opening summary={say('A substance of your own')}>
        <SubstanceForm />
      </Opening>
    </section>
  )
}

/** What the reach comes to, in words and numbers. */
function Outcome({ mark, named }: { readonly mark: SpillMark; readonly named: boolean }) {
  const model = useBoard()?.model
  const reach = useResults((results) => results.assessment?.reaches.find((entry) => entry.mark === mark.id)?.reach)
  if (reach === undefined) return undefined
  return (
    <div className={styles.working}>
      <p>
        {named && <b>{mark.id}: </b>}
        <FiguredText words={reach.extent} units={['mm', 'cm²']} of={{ kind: 'spill-extent', mark: mark.id }} />{' '}
        <Reached reach={reach} model={model} />
      </p>
      {reach.unplacedMl > 0 && (
        <p>{say('{unplacedMl} ml of it ran off the board.', { unplacedMl: decimals(reach.unplacedMl, 2) })}</p>
      )}
      {reach.notes.length > 0 && (
        <Opening summary={say('How it is calculated')}>
          {reach.notes.map((note) => (
            <p key={note}>
              <FiguredText words={note} units={['mm', 'ml']} of={{ kind: 'spill-extent', mark: mark.id }} />
            </p>
          ))}
        </Opening>
      )}
    </div>
  )
}

/** The telling parts by name, the small ones by their number. */
function Reached({ reach, model }: { readonly reach: ReachResult; readonly model: BoardModel | undefined }) {
  const likely = reach.parts
    .filter((part) => part.probability >= 0.05)
    .toSorted((a, b) => b.probability - a.probability)
  const telling = likely.filter(({ ref }) => !isSmallKind(model?.partByRef.get(ref)?.kind)).slice(0, 6)
  const others = likely.length - telling.length
  const names = telling.map((part) => `${part.ref} ${percent(part.probability)}`)
  const small =
    others > 0 ? [say('{others, plural, one {# small part} other {# small parts}} with 5 % or more', { others })] : []
  const words = [...names, ...small]
  if (words.length === 0) return say('No part was reached with a chance over 5 %.')
  return (
    <FiguredText
      words={say('Chance it was reached, by flow alone: {words}.', { words: joined(words) })}
      of={(_, before) => {
        const part = telling.find(({ ref }) => before.endsWith(` ${ref} `))
        return { kind: 'reach', of: part?.ref ?? '' }
      }}
    />
  )
}
