/** Two versions of a board over one another: arrows where parts moved, a plus where one came, a cross where one went. */
import { sideWords } from '../../case/index.ts'
import { type PointerEvent, useEffect, useMemo, useRef, useState } from 'react'
import { type Box, decimals, distance, type Point, say, sentenceCase } from '../../base/index.ts'
import { type BoardComparison, type BoardDescription, partBox, type Side, turnWords } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { fitted, groupTransform, panned, toScreen, type View, wholeBox, zoomed } from './camera.ts'
import styles from './compare.module.css'
import { RefsLayer } from './SheetLayers.tsx'
import { pathOf, shapeOf } from './shapes.ts'

interface CompareSheetProps {
  readonly before: BoardDescription
  readonly after: BoardDescription
  readonly comparison: BoardComparison
}

const NONE: ReadonlySet<string> = new Set()

const firstView: View = { centre: { x: 0, y: 0 }, pxPerMm: 3, side: 'top', widthPx: 600, heightPx: 400 }

export function CompareSheet({ before, after, comparison }: CompareSheetProps) {
  const whole = useMemo(() => joinedBox(wholeBox(before), wholeBox(after)), [before, after])
  const { box, view, setView, hand } = useCompareView(whole)
  const untouched = useMemo(() => {
    const { added, moved, turned, sideChanged } = comparison
    const named = new Set([...added, ...[...moved, ...turned, ...sideChanged].map(({ ref }) => ref)])
    return after.parts.filter(({ ref }) => !named.has(ref))
  }, [after, comparison])
  return (
    <div className={styles.frame}>
      <div className={styles.tools}>
        {(['top', 'bottom'] as const).map((side) => (
          <Button key={side} aria-pressed={view.side === side} onClick={() => setView({ ...view, side })}>
            {sentenceCase(sideWords[side])}
          </Button>
        ))}
        <Button onClick={() => setView(zoomed(view, 1.4))}>{say('Nearer')}</Button>
        <Button onClick={() => setView(zoomed(view, 1 / 1.4))}>{say('Farther')}</Button>
        <Button onClick={() => setView(fitted(view, whole))}>{say('Whole board')}</Button>
      </div>
      <div className={styles.box} ref={box}>
        <svg
          className={styles.sheet}
          role="img"
          aria-label={say('Both versions over one another, {side} side; the list says the same', { side: view.side })}
          width={view.widthPx}
          height={view.heightPx}
          {...hand}
        >
          <g className={styles.drawn} transform={groupTransform(view)}>
            {pathOf(before.outline) !== pathOf(after.outline) && (
              <path className={styles.oldBoard} d={pathOf(before.outline)} />
            )}
            <path className={styles.board} d={pathOf(after.outline)} />
            <Bodies before={before} after={after} comparison={comparison} side={view.side} />
          </g>
          <RefsLayer parts={untouched} view={view} selected={NONE} held={false} />
          <Signs before={before} after={after} comparison={comparison} view={view} />
        </svg>
      </div>
      <Key />
    </div>
  )
}

/** The view fits the box until it is moved or zoomed. */
function useCompareView(whole: Box) {
  const box = useRef<HTMLDivElement>(null)
  const [view, setView] = useState(firstView)
  const [from, setFrom] = useState<Point>()
  useEffect(() => {
    const element = box.current
    if (element === null) return undefined
    const watch = new ResizeObserver(() =>
      setView((last) => fitted({ ...last, widthPx: element.clientWidth, heightPx: element.clientHeight }, whole)),
    )
    watch.observe(element)
    return () => watch.disconnect()
  }, [whole])
  const pan = (at: Point): void => {
    if (from === undefined) return
    setView((last) => panned(last, { x: at.x - from.x, y: at.y - from.y }))
    setFrom(at)
  }
  const hand = {
    onPointerDown: (event: PointerEvent) => setFrom({ x: event.clientX, y: event.clientY }),
    onPointerMove: (event: PointerEvent) => pan({ x: event.clientX, y: event.clientY }),
    onPointerUp: () => setFrom(undefined),
    onPointerLeave: () => setFrom(undefined),
  }
  return { box, view, setView, hand }
}

const joinedBox = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
})

/** Ref in the later version of each part of the earlier one. */
const laterRefs = ({ renamed }: BoardComparison): ReadonlyMap<string, string> =>
  new Map(renamed.map(({ from, to }) => [from, to]))

function Bodies({ before, after, comparison, side }: CompareSheetProps & { readonly side: Side }) {
  const { added, gone, moved, turned, sideChanged } = comparison
  const news = useMemo(() => new Set(added), [added])
  const olds = useMemo(() => new Set(gone), [gone])
  const others = useMemo(
    () => new Set([...moved, ...turned, ...sideChanged].map(({ ref }) => ref)),
    [moved, turned, sideChanged],
  )
  const later = laterRefs(comparison)
  const was = before.parts.filter(
    (part) => part.side === side && (olds.has(part.ref) || others.has(later.get(part.ref) ?? part.ref)),
  )
  return (
    <>
      {after.parts
        .filter((part) => part.side === side)
        .map((part) => (
          <g
            key={part.ref}
            className={styles.part}
            data-is={news.has(part.ref) ? 'added' : others.has(part.ref) ? 'changed' : undefined}
          >
            <path d={shapeOf(part).body} />
            <path className={styles.corner} d={shapeOf(part).corner} />
          </g>
        ))}
      {was.map((part) => (
        <path
          key={part.ref}
          className={styles.was}
          data-is={olds.has(part.ref) ? 'gone' : 'changed'}
          d={shapeOf(part).body}
        />
      ))}
    </>
  )
}

const SIGN_PX = 7
const LEAST_ARROW_PX = 6

function Signs({ before, after, comparison, view }: CompareSheetProps & { readonly view: View }) {
  const byRef = new Map(after.parts.map((part) => [part.ref, part]))
  const byOldRef = new Map(before.parts.map((part) => [part.ref, part]))
  const earlier = new Map(comparison.renamed.map(({ from, to }) => [to, from]))
  const here = (ref: string): boolean => byRef.get(ref)?.side === view.side
  return (
    <g className={styles.signs} aria-hidden="true">
      {comparison.added.filter(here).map((ref) => (
        <Sign key={ref} kind="added" words={ref} at={middleOf(view, byRef.get(ref))} />
      ))}
      {comparison.gone
        .filter((ref) => byOldRef.get(ref)?.side === view.side)
        .map((ref) => (
          <Sign key={ref} kind="gone" words={ref} at={middleOf(view, byOldRef.get(ref))} />
        ))}
      {comparison.moved
        .filter(({ ref }) => here(ref))
        .map(({ ref, from, to, byMm }) => (
          <Arrow key={ref} from={toScreen(view, from)} to={toScreen(view, to)} words={`${ref} ${decimals(byMm, 1)}`} />
        ))}
      {comparison.turned
        .filter(({ ref }) => here(ref))
        .map(({ ref, byDeg }) => (
          <Words
            key={ref}
            at={middleOf(view, byRef.get(ref))}
            words={say('{ref} turned {byDeg}', { ref, byDeg: turnWords(byDeg) })}
          />
        ))}
      {comparison.sideChanged
        .filter(({ ref }) => !here(ref) && byRef.has(ref))
        .map(({ ref }) => (
          <Words
            key={ref}
            at={middleOf(view, byOldRef.get(earlier.get(ref) ?? ref))}
            words={say('{ref} went to the other side', { ref })}
          />
        ))}
      {comparison.sideChanged
        .filter(({ ref }) => here(ref))
        .map(({ ref }) => (
          <Words key={ref} at={middleOf(view, byRef.get(ref))} words={say('{ref} came to this side', { ref })} />
        ))}
    </g>
  )
}

function middleOf(view: View, part: BoardDescription['parts'][number] | undefined): Point {
  if (part === undefined) return { x: -100, y: -100 }
  const { minX, maxX, minY, maxY } = partBox(part)
  return toScreen(view, { x: (minX + maxX) / 2, y: (minY + maxY) / 2 })
}

function Sign({
  kind,
  words,
  at: { x, y },
}: {
  readonly kind: 'added' | 'gone'
  readonly words: string
  readonly at: Point
}) {
  const s = SIGN_PX
  const strokes =
    kind === 'added'
      ? `M${x - s} ${y}H${x + s}M${x} ${y - s}V${y + s}`
      : `M${x - s} ${y - s}L${x + s} ${y + s}M${x - s} ${y + s}L${x + s} ${y - s}`
  return (
    <g data-is={kind}>
      <path d={strokes} />
      <text x={x + s + 5} y={y}>
        {words}
      </text>
    </g>
  )
}

function Arrow({ from, to, words }: { readonly from: Point; readonly to: Point; readonly words: string }) {
  const length = distance(from, to)
  if (length < LEAST_ARROW_PX) return <Words at={to} words={words} />
  const [x, y] = [(to.x - from.x) / length, (to.y - from.y) / length]
  const head = Math.min(9, length * 0.6)
  const back = { x: to.x - x * head, y: to.y - y * head }
  const wing = head * 0.5
  return (
    <g data-is="moved">
      <path d={`M${from.x} ${from.y}L${back.x} ${back.y}`} />
      <path
        className={styles.head}
        d={`M${to.x} ${to.y}L${back.x - y * wing} ${back.y + x * wing}L${back.x + y * wing} ${back.y - x * wing}Z`}
      />
      <text x={to.x + 8} y={to.y - 8}>
        {words}
      </text>
    </g>
  )
}

const Words = ({ at, words }: { readonly at: Point; readonly words: string }) => (
  <text data-is="moved" x={at.x + 8} y={at.y + 12}>
    {words}
  </text>
)

function Key() {
  return (
    <ul className={styles.key} aria-label={say('Signs of the drawing')}>
      <li data-is="added">
        <svg width="20" height="16" aria-hidden="true">
          <path d="M3 8H17M10 1V15" />
        </svg>
        {say('added')}
      </li>
      <li data-is="gone">
        <svg width="20" height="16" aria-hidden="true">
          <path d="M4 2L16 14M4 14L16 2" />
        </svg>
        {say('gone')}
      </li>
      <li data-is="moved">
        <svg width="26" height="16" aria-hidden="true">
          <path d="M2 8H18" />
          <path className={styles.head} d="M25 8L17 4V12Z" />
        </svg>
        {say('moved, by mm')}
      </li>
      <li data-is="was">
        <svg width="26" height="16" aria-hidden="true">
          <path d="M2 3H24V13H2Z" />
        </svg>
        {say('where it was')}
      </li>
    </ul>
  )
}
