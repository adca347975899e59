/** What all reports come to: errors per part with the kind of failure; lanes and bits stand in the part's evidence. */
import { signatureWords } from '../../../case/index.ts'
import { numberWords, say } from '../../../base/index.ts'
import type { Tally } from '../../../report/index.ts'
import { showOnSheet } from '../../actions/show.ts'
import { LinkButton } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { isUntested } from '../../stores/tested.ts'

export function TallyTable({ tally }: { readonly tally: Tally }) {
  const desk = useDesk()
  const parts = tally.parts.toSorted((a, b) => b.errors - a.errors)
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{say('Errors of each memory part')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('part')}</th>
          <th scope="col" className={styles.number}>
            {say('errors')}
          </th>
          <th scope="col" className={styles.number}>
            {say('lanes failing')}
          </th>
          <th scope="col">{say('looks like')}</th>
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => {
          const lanes = part.channels.flatMap((channel) => channel.lanes)
          const tested = lanes.filter((lane) => lane.state !== 'untested')
          const untested = isUntested(part)
          const failing = lanes.filter((lane) => lane.state === 'fail')
          return (
            <tr key={part.ref}>
              <th scope="row">
                <LinkButton onClick={() => showOnSheet(desk, { kind: 'part', id: part.ref })}>{part.ref}</LinkButton>
              </th>
              <td className={styles.number}>{untested ? '' : numberWords(part.errors)}</td>
              <td className={styles.number}>
                {tested.length === 0
                  ? say('untested')
                  : say('{length} of {length2}', { length: failing.length, length2: tested.length })}
              </td>
              <td>{untested ? '' : signatureWords[part.signature.kind]}</td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
