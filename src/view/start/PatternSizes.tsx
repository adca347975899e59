/** Sizes of a board from a pattern: those that are left alone follow the rest, and are as small as it allows. */
import { type Fault, say } from '../../base/index.ts'
import { type BoardModel, patternLimits, usualCoreMm } from '../../board/index.ts'
import { LinkButton } from '../controls/Button.tsx'
import { NumberField } from '../controls/fields.tsx'
import type { PatternDraft } from './patternDraft.ts'
import styles from './start.module.css'

interface PatternSizesProps {
  readonly draft: PatternDraft
  /** The last board that could be made. */
  readonly shown: BoardModel | undefined
  readonly faults: readonly Fault[]
  readonly onChange: (next: Partial<PatternDraft>) => void
}

export function PatternSizes({ draft, shown, faults, onChange }: PatternSizesProps) {
  const { boardMm, coreMm } = draft
  const { coreMm: coreLimits, widthMm: widthLimits, heightMm: heightLimits } = patternLimits
  const faultOf = (field: 'widthMm' | 'heightMm'): string | undefined => {
    const fault = faults.find(({ path }) => path === `$.boardMm.${field}`)
    return fault === undefined ? undefined : say('It takes {expected}.', { expected: fault.expected })
  }
  const fitted = boardMm === undefined && coreMm === undefined
  return (
    <div className={styles.sizes}>
      <div className={styles.three}>
        <NumberField
          label={say('Core, each edge')}
          unit="mm"
          {...coreLimits}
          value={coreMm ?? usualCoreMm(draft)}
          onChange={(value) => onChange({ coreMm: value })}
        />
        <NumberField
          label={say('Board, width')}
          unit="mm"
          {...widthLimits}
          value={boardMm?.widthMm ?? widthOf(shown)}
          fault={faultOf('widthMm')}
          onChange={(widthMm) => onChange({ boardMm: { ...boardMm, widthMm } })}
        />
        <NumberField
          label={say('Board, height with tab')}
          unit="mm"
          {...heightLimits}
          value={boardMm?.heightMm ?? heightOf(shown)}
          fault={faultOf('heightMm')}
          onChange={(heightMm) => onChange({ boardMm: { ...boardMm, heightMm } })}
        />
      </div>
      <p className={styles.small}>
        {fitted ? (
          say('Sizes follow the bus and the stages until you change one.')
        ) : (
          <LinkButton onClick={() => onChange({ boardMm: undefined, coreMm: undefined })}>
            {say('Let the sizes follow bus and stages again')}
          </LinkButton>
        )}
      </p>
    </div>
  )
}

const widthOf = (model: BoardModel | undefined): number => (model === undefined ? 0 : model.box.maxX - model.box.minX)
const heightOf = (model: BoardModel | undefined): number => (model === undefined ? 0 : model.box.maxY - model.box.minY)
