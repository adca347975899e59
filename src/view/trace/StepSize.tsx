/** The first step: a photo, and something in it whose size is known. */
import { Camera } from 'lucide-react'
import { LinkButton, Button } from '../controls/Button.tsx'
import { Choice, NumberField } from '../controls/fields.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import styles from './trace.module.css'
import type { KnownBy } from './frame.ts'
import type { TraceState } from './useTrace.ts'

const knownOptions = [
  { value: 'board', words: 'The board’s corners' },
  { value: 'package', words: 'A package’s corners' },
  { value: 'holes', words: 'Four holes or marks' },
  { value: 'distance', words: 'Two points' },
] as const

const hints: Readonly<Record<KnownBy, string>> = {
  board:
    'Click the four corners of the board, without the tab of the contacts. Within a millimetre is near enough: its edges are followed, and they tell how the lens bends.',
  package:
    'Click the four corners of a package of known size. Far from it places get less exact. Mark the board’s edge afterwards.',
  holes: 'Click four holes or marks that form a rectangle of known size. Mark the board’s edge afterwards.',
  distance:
    'Click two points whose distance you know. The photo must be taken from straight above. Mark the board’s edge afterwards.',
}

const pointsFor = (by: KnownBy): number => (by === 'distance' ? 2 : 4)

export function StepSize({ trace }: { readonly trace: TraceState }) {
  const { shown, knownBy, known, side } = trace
  const wanted = pointsFor(knownBy)
  const clicked = shown?.points.length ?? 0
  return (
    <div className={styles.panel}>
      <FileButton
        label={side === 'top' ? 'Photo of the board' : 'Photo of the bottom side'}
        accept="image/png,image/jpeg,image/webp"
        onFile={(file) => void trace.takePhoto(file)}
      >
        <Camera size={16} aria-hidden="true" /> {shown === undefined ? 'Choose a photo…' : 'Another photo…'}
      </FileButton>
      {shown !== undefined && (
        <>
          <Choice label="What is known" value={knownBy} options={knownOptions} onChange={trace.setKnownBy} />
          <p className={styles.hint}>{hints[knownBy]}</p>
          <div className={styles.pair}>
            <NumberField
              label={knownBy === 'distance' ? 'Distance' : 'Width'}
              unit="mm"
              min={3}
              max={1000}
              value={known.widthMm}
              onChange={(widthMm) => trace.setKnown({ ...known, widthMm })}
            />
            {knownBy !== 'distance' && (
              <NumberField
                label="Height"
                unit="mm"
                min={3}
                max={1000}
                value={known.heightMm}
                onChange={(heightMm) => trace.setKnown({ ...known, heightMm })}
              />
            )}
          </div>
          <p role="status">
            {clicked} of {wanted} points clicked.{' '}
            {clicked > 0 && <LinkButton onClick={() => trace.setPoints([])}>Click them anew</LinkButton>}
          </p>
          <Button tone="strong" disabled={clicked !== wanted} onClick={() => void trace.straighten()}>
            Straighten
          </Button>
        </>
      )}
    </div>
  )
}

/** A click more, up to as many as are needed. */
export const pointsWith = ({ shown, knownBy }: TraceState, at: { x: number; y: number }) =>
  [...(shown?.points ?? []), at].slice(0, pointsFor(knownBy))
