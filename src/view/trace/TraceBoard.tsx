/** Tracing a board from a photo, in three steps: photo and size, parts, supplies. Stands in the dialog that begins a case. */
import { useState } from 'react'
import { sayFault, type Point, say } from '../../base/index.ts'
import { fromRaster, refsOf } from '../../trace/index.ts'
import { Button } from '../controls/Button.tsx'
import dialog from '../controls/dialog.module.css'
import { DialogHead } from '../controls/DialogHead.tsx'
import { Choice } from '../controls/fields.tsx'
import { FiguredText } from '../figures/index.ts'
import { ProgressBar } from '../controls/pieces.tsx'
import { Overlay } from './Overlay.tsx'
import { PartList } from './PartList.tsx'
import { PhotoPane } from './PhotoPane.tsx'
import { StepBoard, type SuppliesForm } from './StepBoard.tsx'
import { StepParts } from './StepParts.tsx'
import { pointsFor, pointsWith, StepSize } from './StepSize.tsx'
import styles from './trace.module.css'
import { type TraceState, useTrace } from './useTrace.ts'
import { outlineOf } from './work.ts'

type Step = 'size' | 'parts' | 'board'

const stepOptions = [
  { value: 'size', words: say('1 Photo and size') },
  { value: 'parts', words: say('2 Parts') },
  { value: 'board', words: say('3 Supplies and name') },
] as const

const sideOptions = [
  { value: 'top', words: say('Top') },
  { value: 'bottom', words: say('Bottom') },
] as const

interface TraceBoardProps {
  readonly freeName: string
  readonly suppliesForm: SuppliesForm
  readonly onBack: () => void
}

export function TraceBoard({ freeName, suppliesForm, onBack }: TraceBoardProps) {
  const trace = useTrace()
  const [asked, setAsked] = useState<Step>('size')
  const step: Step =
    trace.straight === undefined && asked !== 'board'
      ? 'size'
      : asked === 'size' && trace.straight !== undefined
        ? 'parts'
        : asked
  const go = (next: Step): void => {
    if (next === 'size') trace.again()
    setAsked(next)
  }
  return (
    <>
      <DialogHead title={say('A board from a photo')} closeLabel={say('Close without a new case')}>
        <p>{say('Show its size, click its parts, name its supplies.')}</p>
        <Button onClick={onBack}>{say('Back to the choice')}</Button>
      </DialogHead>
      <div className={`${dialog.body} ${styles.trace}`} data-step={step}>
        <div className={styles.left}>
          <div className={styles.steps}>
            <Choice label={say('Step')} labelHidden value={step} options={stepOptions} onChange={go} />
            {trace.hasTop && (
              <Choice
                label={say('Side')}
                labelHidden
                value={trace.side}
                options={sideOptions}
                onChange={trace.setSide}
              />
            )}
          </div>
          <Photo trace={trace} />
          <Status trace={trace} />
        </div>
        <div className={styles.side}>
          {step === 'size' && <StepSize trace={trace} />}
          {step === 'parts' && <StepParts trace={trace} />}
          {step === 'board' && <StepBoard trace={trace} freeName={freeName} suppliesForm={suppliesForm} />}
          {step !== 'size' && <PartList trace={trace} />}
        </div>
      </div>
    </>
  )
}

function Photo({ trace }: { readonly trace: TraceState }) {
  const { shown, straight, work, side, board } = trace
  if (straight !== undefined) {
    const refs = refsOf(work.parts, { firstId: work.firstId })
    return (
      <PhotoPane
        key={`straight ${side}`}
        picture={straight.picture}
        label={say('The {side} side of the board from straight above.', { side })}
        onPoint={(at) => void trace.clickOnBoard(fromRaster(straight.raster, at))}
      >
        <Overlay
          raster={straight.raster}
          outline={outlineOf(board, work)}
          parts={work.parts.filter((part) => part.side === side)}
          proposals={work.proposals.filter(({ part }) => part.side === side)}
          refs={refs}
          selectedId={work.selectedId}
          toolPoints={trace.toolPoints}
        />
      </PhotoPane>
    )
  }
  if (shown === undefined) return <Empty trace={trace} />
  const { preview, widthPx } = shown.photo
  const scale = preview.width / widthPx
  const scaled = (at: Point, by: number): Point => ({ x: at.x * by, y: at.y * by })
  return (
    <PhotoPane
      key={`photo ${side}`}
      picture={preview}
      label={say('The photo of the {side} side.', { side })}
      onPoint={(at) => trace.setPoints(pointsWith(trace, scaled(at, 1 / scale)))}
    >
      {shown.points.map((point, i) => (
        <g key={`${point.x} ${point.y}`} className={styles.corner}>
          <circle cx={point.x * scale} cy={point.y * scale} r={preview.width / 160} />
          <text x={point.x * scale + preview.width / 90} y={point.y * scale} fontSize={preview.width / 50}>
            {i + 1}
          </text>
        </g>
      ))}
    </PhotoPane>
  )
}

function Empty({ trace }: { readonly trace: TraceState }) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div
      className={styles.empty}
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        event.stopPropagation()
        const [file] = event.dataTransfer.files
        if (file !== undefined) void trace.takePhoto(file)
      }}
    >
      <p>
        <b>
          {trace.side === 'top'
            ? say('Drop a photo of the bare board here')
            : say('Drop a photo of the bottom side here')}
        </b>
        {say(', or choose one.')}
      </p>
      <p>
        {say(
          'From straight above, the whole board in sight, without flash. JPEG, PNG or WebP, at most 64 million pixels.',
        )}
      </p>
    </div>
  )
}

function Status({ trace }: { readonly trace: TraceState }) {
  const { busy, faults, said, missMm } = trace
  const points = pointsFor(trace.knownBy)
  return (
    <div className={styles.status}>
      {busy !== undefined && (
        <div className={styles.busy}>
          <ProgressBar share={busy.share} words={busy.words} />
          <Button onClick={busy.cancel}>{say('Cancel')}</Button>
        </div>
      )}
      <p role="status">
        {busy === undefined && (
          <FiguredText
            words={said}
            units={['mm']}
            of={missMm === undefined ? () => undefined : { kind: 'photo-fit', points, missMm }}
          />
        )}
      </p>
      {faults.length > 0 && (
        <ul role="alert" className={styles.faults}>
          {faults.map((fault) => (
            <li key={`${fault.path} ${fault.found}`}>{sayFault(fault)}</li>
          ))}
        </ul>
      )}
    </div>
  )
}
