/** Channels and lanes in the side panel: swapped in their channel or on their package, and a region cut in two. */
import { say } from '../../base/index.ts'
import { ArrowDown, ArrowUp } from 'lucide-react'
import { useMemo, useState } from 'react'
import { loadBoard, type Part, partKinds, regionsOf } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField, TextField, Tick } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { BitOrder } from './BitOrder.tsx'
import { DrawRegion } from './DrawRegion.tsx'
import { edit, select } from './editorStore.ts'
import styles from './own-board.module.css'
import { useEditedBoard, useEditor, useEditorStore } from './useEditor.ts'

interface LaneOfChannel {
  readonly id: string
  readonly part: string
  readonly region: string
}

export function LanesPanel() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const selected = useEditor((state) => state.selected)
  const { channels } = board.memory
  const ofSelected = channels.find(
    ({ part, lanes }) => selected.includes(part) || lanes.some((lane) => selected.includes(lane.part ?? '')),
  )
  const [chosen, setChosen] = useState('')
  const channel = channels.find(({ id }) => id === chosen) ?? ofSelected ?? channels[0]
  if (channel === undefined)
    return <p className={styles.quiet}>{say('This board has no channels: nothing tells which lane runs where.')}</p>
  const lanes = channel.lanes.map((lane): LaneOfChannel => {
    const part = lane.part ?? channel.part
    return { id: `${part}.${lane.name}`, part, region: lane.memoryRegion ?? lane.name }
  })
  const cut =
    board.parts.find(({ ref, kind }) => selected.includes(ref) && partKinds[kind].onBalls) ??
    board.parts.find(({ ref }) => ref === channel.part)
  return (
    <>
      <SelectField
        label={say('Channel')}
        value={channel.id}
        options={channels.map(({ id, part: ref }) => ({ value: id, words: say('{id}, on {ref}', { id, ref }) }))}
        onChange={(id) => {
          setChosen(id)
          select(editor, [...new Set(channels.filter((each) => each.id === id).map((each) => each.part))])
          editor.setState({ tab: 'lanes' })
        }}
      />
      <LaneRows lanes={lanes} />
      <SwapRegions />
      <Opening summary={say('Learn the order of data bits')}>
        <BitOrder lanes={lanes.map(({ id }) => id)} />
      </Opening>
      {cut !== undefined && (
        <Opening summary={say('Draw a region')}>
          <DrawRegion key={cut.ref} part={cut} />
        </Opening>
      )}
      {cut !== undefined && (
        <Opening summary={say('Cut a region in two')}>
          <SplitRegion key={cut.ref} part={cut} />
        </Opening>
      )}
    </>
  )
}

/** In their order: the first carries the lowest data bits of the channel. */
function LaneRows({ lanes }: { readonly lanes: readonly LaneOfChannel[] }) {
  const editor = useEditorStore()
  const swap = (a: string | undefined, b: string | undefined) => (): void => {
    if (a !== undefined && b !== undefined) edit(editor, { kind: 'swap-lanes', lanes: [a, b] })
  }
  return (
    <ol className={styles.lanes} aria-label={say('Lanes, the lowest data bits first')}>
      {lanes.map(({ id, region }, i) => (
        <li key={id}>
          <span>
            <b>{id}</b> {say('in region')} {region}
          </span>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('{id} earlier', { id })}
            disabled={i === 0}
            onClick={swap(lanes[i - 1]?.id, id)}
          >
            <ArrowUp size={15} aria-hidden="true" />
          </Button>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('{id} later', { id })}
            disabled={i === lanes.length - 1}
            onClick={swap(id, lanes[i + 1]?.id)}
          >
            <ArrowDown size={15} aria-hidden="true" />
          </Button>
        </li>
      ))}
    </ol>
  )
}

function SwapRegions() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const ids = board.memory.channels.flatMap((channel) =>
    channel.lanes.map((lane) => `${lane.part ?? channel.part}.${lane.name}`),
  )
  const [a, setA] = useState(ids[0] ?? '')
  const [b, setB] = useState(ids[1] ?? '')
  const options = ids.map((value) => ({ value, words: value }))
  return (
    <div className={styles.fields} role="group" aria-label={say('Swap on the package')}>
      <p>
        <b>{say('Swap two lanes on their package')}</b>
      </p>
      <div className={styles.two}>
        <SelectField label={say('One lane')} value={a} options={options} onChange={setA} />
        <SelectField label={say('Other lane')} value={b} options={options} onChange={setB} />
      </div>
      <Button onClick={() => edit(editor, { kind: 'swap-regions', lanes: [a, b] })}>
        {say('Swap their regions and balls')}
      </Button>
    </div>
  )
}

/** Ids of the lanes that a region serves, while the board is sound. */
function useServed(ref: string, region: string): readonly string[] {
  const board = useEditedBoard()
  return useMemo(() => {
    const loaded = loadBoard(board)
    return loaded.ok ? (loaded.value.regionById.get(`${ref}/${region}`)?.lanes ?? []) : []
  }, [board, ref, region])
}

function SplitRegion({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const names = useMemo(() => [...regionsOf(board, part).keys()], [board, part])
  const [wanted, setRegion] = useState('')
  const region = names.includes(wanted) ? wanted : (names[0] ?? '')
  const [along, setAlong] = useState<'x' | 'y'>('x')
  const [sharePct, setShare] = useState(50)
  const [typed, setTyped] = useState('')
  const newName = typed.trim() === '' ? `${region} 2` : typed.trim()
  const served = useServed(part.ref, region)
  const [going, setGoing] = useState<readonly string[]>([])
  if (names.length === 0) return <p className={styles.quiet}>{say('{ref} has no regions.', { ref: part.ref })}</p>
  const lanes = going.filter((id) => served.includes(id))
  return (
    <div className={styles.fields}>
      <SelectField
        label={say('Region of {ref}', { ref: part.ref })}
        value={region}
        options={names.map((value) => ({ value, words: value }))}
        onChange={setRegion}
      />
      <div className={styles.two}>
        <SelectField
          label={say('Cut into')}
          value={along}
          options={[
            { value: 'x', words: say('left and right') },
            { value: 'y', words: say('lower and upper') },
          ]}
          onChange={setAlong}
        />
        <NumberField label={say('Stays')} unit="%" value={sharePct} min={2} max={98} onChange={setShare} />
      </div>
      <TextField
        label={say('Name of the other piece')}
        placeholder={`${region} 2`}
        value={typed}
        maxLength={120}
        onChange={setTyped}
      />
      {served.map((id) => (
        <Tick
          key={id}
          label={say('{id} goes to the other piece', { id })}
          checked={going.includes(id)}
          onChange={(on) => setGoing((all) => (on ? [...all, id] : all.filter((each) => each !== id)))}
        />
      ))}
      <Button
        onClick={() =>
          edit(editor, { kind: 'split-region', ref: part.ref, region, along, share: sharePct / 100, newName, lanes })
        }
      >
        {say('Cut {region}', { region })}
      </Button>
    </div>
  )
}
