/** What the readings come to: the place in words, and the parts that it points at. */
import { say } from '../../../../base/index.ts'
import type { ShortAnswer } from '../../../../measure/index.ts'
import { showPart } from './short.ts'
import { Bar, Opening } from '../../../controls/pieces.tsx'
import styles from '../../../controls/panel.module.css'
import { Figured, FiguredText } from '../../../figures/index.ts'
import { useBoard, useDesk } from '../../../stores/hooks.ts'
import { UNPLACED } from './shortView.ts'
import { paragraph, percent, spacedKind } from '../../../stores/words.ts'
import own from './short.module.css'

const SHOWN_PARTS = 6

export function ShortFinding({ answer }: { readonly answer: ShortAnswer }) {
  const desk = useDesk()
  const model = useBoard()?.model
  const silent = UNPLACED.includes(answer.verdict)
  const [finding, ...rest] = answer.said
  return (
    <section className={styles.section} aria-label={say('Where the short is')}>
      <div className={own.said} aria-live="polite">
        <p>
          <FiguredText
            words={paragraph([finding ?? ''])}
            units={['mm', 'mm²']}
            of={{ kind: 'short', answer, ref: undefined }}
          />
        </p>
        {rest.slice(0, Math.max(0, rest.length - ASSUMPTIONS)).map((sentence) => (
          <p key={sentence}>
            <FiguredText words={paragraph([sentence])} of={{ kind: 'short', answer, ref: undefined }} />
          </p>
        ))}
      </div>
      {!silent && answer.parts.length > 0 && (
        <>
          <h3 className={styles.sub}>{say('Parts at that place')}</h3>
          <ul className={own.parts} aria-label={say('Parts that may hold the short')}>
            {answer.parts.slice(0, SHOWN_PARTS).map(({ ref, share }) => (
              <li key={ref}>
                <button
                  type="button"
                  title={say('Show this {spacedKind} on the sheet', {
                    spacedKind: spacedKind(model?.partByRef.get(ref)?.kind ?? 'part'),
                  })}
                  onClick={() => showPart(desk, ref)}
                  onMouseEnter={() => desk.screen.setState({ hovered: { kind: 'part', id: ref } })}
                  onMouseLeave={() => desk.screen.setState({ hovered: undefined })}
                >
                  <b>{ref}</b>
                  <Bar share={share} />
                </button>
                <Figured of={{ kind: 'short', answer, ref }}>{percent(share)}</Figured>
              </li>
            ))}
          </ul>
          <p className={styles.quiet}>
            {say(
              'If one part of the rail is shorted and each was as likely as any other before. Measure a part alone before it comes off.',
            )}
          </p>
        </>
      )}
      <Opening summary={say('How it is calculated')}>
        {rest.slice(-ASSUMPTIONS).map((sentence) => (
          <p key={sentence}>
            <FiguredText words={paragraph([sentence])} of={{ kind: 'short', answer, ref: undefined }} />
          </p>
        ))}
        <p>
          {say(
            'The copper is a thin sheet, every place of it as likely as any other before. Readings differ from it by one unknown offset, by the meter’s wandering and by what the copper’s shape leaves out; its resistance may be off by a quarter or so. All of it is summed out exactly.',
          )}
        </p>
      </Opening>
    </section>
  )
}

/** The last sentences of an answer say what copper it takes for granted. */
const ASSUMPTIONS = 2
