/** The board that the form makes so far: its drawing, what it is like, and what nobody knows of it. */
import { say } from '../../base/index.ts'
import { boardLikeness, type BoardModel } from '../../board/index.ts'
import { BoardThumb } from './BoardThumb.tsx'
import styles from './start.module.css'

export function PatternPreview({ model }: { readonly model: BoardModel | undefined }) {
  return (
    <figure className={styles.figure}>
      <BoardThumb model={model} large />
      <figcaption>
        <p role="status">
          <b>{model === undefined ? say('No board yet') : boardLikeness(model)}</b>
          <span>{model === undefined ? '' : sizeWords(model)}</span>
        </p>
        <p className={styles.small}>
          {say(
            'Parts stand where they usually do; nothing is measured. The ohms of the rails are common practice, for comparison only. Which address belongs to which channel is not known.',
          )}
        </p>
      </figcaption>
    </figure>
  )
}

function sizeWords({ box, parts, memories }: BoardModel): string {
  const stages = parts.filter(({ kind }) => kind === 'power-stage').length
  const behind = memories.filter(({ side }) => side === 'bottom').length
  return [
    `${box.maxX - box.minX} × ${box.maxY - box.minY} mm`,
    say('{stages, plural, one {# power stage} other {# power stages}}', { stages }),
    ...(behind > 0
      ? [say('dashed: {behind, plural, one {# package} other {# packages}} on the bottom', { behind })]
      : []),
  ].join(', ')
}
