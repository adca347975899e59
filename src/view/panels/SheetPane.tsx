/** The middle: the tools over the sheet, the sheet itself, and what a hand does on it handed to the actions. */
import { say } from '../../base/index.ts'
import { useMemo } from 'react'
import { substanceNames } from '../../case/index.ts'
import { addMark, putMark, removeMark } from '../actions/edit.ts'
import { probeAt } from '../stations/measuring/short/short.ts'
import { Sheet } from '../sheet/index.ts'
import { shownReach } from '../stores/derive.ts'
import {
  useBoard,
  useDesk,
  usePhotos,
  usePlan,
  usePresent,
  useProof,
  useResults,
  useRetest,
  useScreen,
  useTally,
} from '../stores/hooks.ts'
import { proofLanesOf } from '../stations/proof/proofWords.ts'
import { photoViews } from '../stores/photoStore.ts'
import { shownTheme } from '../stores/screenStore.ts'
import { shownOverlays } from '../stations/entries.ts'
import { heatViewOf, passesOf, runViewOf } from '../stations/plan/sheetRework.ts'
import { useShortView } from '../stations/measuring/short/shortView.ts'
import { takeSketch } from '../stations/pads/edit.ts'
import { Boundary } from './Boundary.tsx'
import { AboveSheet } from '../stations/memory-run/names/AboveSheet.tsx'
import { useNamesOnSheet } from '../stations/memory-run/names/useWaiting.ts'
import { MarkStrip } from './MarkStrip.tsx'
import { SheetTools } from './SheetTools.tsx'
import styles from '../controls/sheetPane.module.css'

export function SheetPane() {
  return (
    <main className={styles.pane} aria-label={say('Sheet')}>
      <SheetTools />
      <AboveSheet />
      <div className={styles.sheet} data-testid="sheet">
        <Boundary what={say('The sheet')} drawn={useBoard()}>
          <BoundSheet />
        </Boundary>
        <MarkStrip />
      </div>
    </main>
  )
}

function BoundSheet() {
  const desk = useDesk()
  const board = useBoard()
  const present = usePresent()
  const tally = useTally()
  const { tallyParts, proofLanes } = useBeforeAfter()
  const assessment = useResults((results) => results.assessment)
  const theme = useScreen(shownTheme)
  const overlays = useScreen(shownOverlays)
  const selection = useScreen((screen) => screen.selection)
  const hovered = useScreen((screen) => screen.hovered)
  const tool = useScreen((screen) => screen.tool)
  const painting = useScreen((screen) => screen.painting)
  const straightened = usePhotos((state) => state.straightened)
  const entries = present?.photos
  const photos = useMemo(() => photoViews(entries ?? [], { straightened }), [entries, straightened])
  const own = present?.substances
  const substanceName = useMemo(() => substanceNames(own ?? []), [own])
  const judged = assessment?.suspects
  const marked = present !== undefined && present.marks.length > 0
  const suspects = useMemo(() => {
    if (judged === undefined || tally !== undefined) return judged
    // with nothing seen and no run the field is the same everywhere: a wash over the whole board that says nothing
    return marked ? { ...judged, lift: [] } : { ...judged, lift: [], spill: undefined }
  }, [judged, tally, marked])
  const { passes, heat } = useRework()
  const short = useShortView()
  const { takesPart, onAim, ...waiting } = useNamesOnSheet(overlays.reportNames === true)
  if (board === undefined || present === undefined) return <EmptySheet />
  return (
    <Sheet
      key={board.opening}
      model={board.model}
      camera={board.camera}
      theme={theme}
      overlays={overlays}
      tallyParts={tallyParts}
      proofLanes={proofLanes}
      reach={shownReach(assessment, selection)}
      suspects={suspects}
      passes={passes}
      heat={heat}
      marks={present.marks}
      padRepairs={present.padRepairs}
      selection={selection}
      hovered={hovered}
      tool={tool}
      short={overlays.short === true ? short : undefined}
      onProbe={(at, side) => probeAt(desk, at, side)}
      painting={painting}
      photos={photos}
      substanceName={substanceName}
      {...waiting}
      onSelect={(chosen) => {
        if (!takesPart(chosen?.kind === 'part' ? chosen.id : undefined)) desk.screen.setState({ selection: chosen })
      }}
      onHover={(lit) => desk.screen.setState({ hovered: lit })}
      onMarkAdd={(draft) => takeSketch(desk, draft) || addMark(desk, draft)}
      onMarkEdit={(mark, grip, phase) => putMark(desk, mark, grip, phase)}
      onMarkRemove={(id) => removeMark(desk, id)}
      onPointAt={(at, side) => {
        const pointer = at === undefined ? undefined : { at, side }
        desk.screen.setState({ pointer })
        onAim(pointer)
      }}
    />
  )
}

const noParts = [] as const

/** What is hatched: the run of the card as it came, and at the station of the proof the runs after the work, once there are some. */
function useBeforeAfter() {
  const tally = useTally()
  const retest = useRetest()
  const proof = useProof()
  const here = useScreen((screen) => screen.station === 'proof') && retest !== undefined
  const proofLanes = useMemo(() => (here && proof !== undefined ? proofLanesOf(proof) : undefined), [here, proof])
  return { tallyParts: (here ? retest : tally)?.parts ?? noParts, proofLanes }
}

/** The plan's passes and the shown moment of a pass, at the plan's station only. */
function useRework() {
  const board = useBoard()
  const here = useScreen((screen) => screen.station === 'plan')
  const answer = usePlan((plan) => plan.answer)
  const litStep = usePlan((plan) => plan.litStep)
  const look = usePlan((plan) => plan.look)
  const timeS = usePlan((plan) => plan.timeS)
  const run = look?.run
  const passes = useMemo(() => (here ? passesOf({ answer, litStep, look }) : noParts), [here, answer, litStep, look])
  const view = useMemo(
    () => (board === undefined ? undefined : runViewOf(board.model, look, answer?.best.steps ?? [])),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- progress and tried changes of the same run change nothing here
    [board, run, answer],
  )
  const heat = useMemo(() => (here ? heatViewOf(view, look, timeS) : undefined), [here, view, look, timeS])
  return { passes, heat }
}

function EmptySheet() {
  const busy = useScreen((screen) => screen.busy)
  return (
    <div className={styles.empty}>
      <p>
        {busy === undefined
          ? say('No board on the sheet. Open one, or drop a case, a board or a layout file here.')
          : busy.words}
      </p>
    </div>
  )
}
