/** The first step: a photo, and something in it whose size is known. */
import { say } from '../../base/index.ts'
import { Camera } from 'lucide-react'
import { LinkButton, Button } from '../controls/Button.tsx'
import { Choice, NumberField } from '../controls/fields.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import styles from './trace.module.css'
import type { KnownBy } from './frame.ts'
import type { TraceState } from './useTrace.ts'

const knownOptions = [
  { value: 'board', words: say('The board’s corners') },
  { value: 'package', words: say('A package’s corners') },
  { value: 'holes', words: say('Four holes or marks') },
  { value: 'distance', words: say('Two points') },
] as const

const hints: Readonly<Record<KnownBy, string>> = {
  board: say(
    'Click the four corners of the board, without the tab of the contacts. Within a millimetre is near enough: its edges are followed, and they tell how the lens bends.',
  ),
  package: say(
    'Click the four corners of a package of known size. Far from it places get less exact. Mark the board’s edge afterwards.',
  ),
  holes: say('Click four holes or marks that form a rectangle of known size. Mark the board’s edge afterwards.'),
  distance: say(
    'Click two points whose distance you know. The photo must be taken from straight above. Mark the board’s edge afterwards.',
  ),
}

export const pointsFor = (by: KnownBy): number => (by === 'distance' ? 2 : 4)

export function StepSize({ trace }: { readonly trace: TraceState }) {
  const { shown, knownBy, known, side } = trace
  const wanted = pointsFor(knownBy)
  const clicked = shown?.points.length ?? 0
  return (
    <div className={styles.panel}>
      <FileButton
        label={side === 'top' ? say('Photo of the board') : say('Photo of the bottom side')}
        accept="image/png,image/jpeg,image/webp"
        onFile={(file) => void trace.takePhoto(file)}
      >
        <Camera size={16} aria-hidden="true" /> {shown === undefined ? say('Choose a photo…') : say('Another photo…')}
      </FileButton>
      {shown !== undefined && (
        <>
          <Choice label={say('What is known')} value={knownBy} options={knownOptions} onChange={trace.setKnownBy} />
          <p className={styles.hint}>{hints[knownBy]}</p>
          <div className={styles.pair}>
            <NumberField
              label={knownBy === 'distance' ? say('Distance') : say('Width')}
              unit="mm"
              min={3}
              max={1000}
              value={known.widthMm}
              onChange={(widthMm) => trace.setKnown({ ...known, widthMm })}
            />
            {knownBy !== 'distance' && (
              <NumberField
                label={say('Height')}
                unit="mm"
                min={3}
                max={1000}
                value={known.heightMm}
                onChange={(heightMm) => trace.setKnown({ ...known, heightMm })}
              />
            )}
          </div>
          <p role="status">
            {say('{clicked} of {wanted} points clicked.', { clicked, wanted })}{' '}
            {clicked > 0 && <LinkButton onClick={() => trace.setPoints([])}>{say('Click them anew')}</LinkButton>}
          </p>
          <Button tone="strong" disabled={clicked !== wanted} onClick={() => void trace.straighten()}>
            {say('Straighten')}
          </Button>
        </>
      )}
    </div>
  )
}

/** A click more, up to as many as are needed. */
export const pointsWith = ({ shown, knownBy }: TraceState, at: { x: number; y: number }) =>
  [...(shown?.points ?? []), at].slice(0, pointsFor(knownBy))
