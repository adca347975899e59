/** The order of a lane's data bits, learnt from bits that failed while the ball at fault was known. */
import { useMemo, useState } from 'react'
import { joined, sayFault, someOf, say } from '../../base/index.ts'
import {
  type BoardDescription,
  dqBallsOf,
  type DqOrder,
  learnDqOrder,
  loadBoard,
  readFailedBits,
} from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { SelectField, TextField } from '../controls/fields.tsx'
import { edit } from './editorStore.ts'
import styles from './own-board.module.css'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

export function BitOrder({ lanes }: { readonly lanes: readonly string[] }) {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const [wanted, setLane] = useState('')
  const lane = lanes.includes(wanted) ? wanted : (lanes[0] ?? '')
  const [typed, setTyped] = useState('')
  const balls = useBalls(board, lane)
  const order = typed.trim() === '' || balls === undefined ? undefined : orderOf(typed, balls)
  const swaps = order !== undefined && typeof order !== 'string' ? wholeOrder(order) : undefined
  return (
    <div className={styles.fields}>
      <SelectField
        label={say('Lane')}
        value={lane}
        options={lanes.map((value) => ({ value, words: value }))}
        onChange={setLane}
      />
      {balls === undefined ? (
        <p className={styles.quiet}>{say('No ball map for its package: which ball is which bit can’t be told.')}</p>
      ) : (
        <>
          <TextField
            label={say('Failed bit and the ball at fault')}
            long
            hint={say('Such as 3,{balls}: a line each, of {joined}.', {
              balls: balls[0] ?? 'B4',
              joined: joined([...balls]),
            })}
            value={typed}
            fault={typeof order === 'string' ? order : undefined}
            onChange={setTyped}
          />
          {order !== undefined && typeof order !== 'string' && <Told order={order} balls={balls} />}
          <Button
            disabled={swaps === undefined}
            onClick={() => swaps !== undefined && edit(editor, { kind: 'order-bits', lane, swaps: [...swaps] })}
          >
            {say('Use this order for {lane}', { lane })}
          </Button>
        </>
      )}
    </div>
  )
}

function useBalls(board: BoardDescription, id: string): readonly string[] | undefined {
  return useMemo(() => {
    const loaded = loadBoard(board)
    const lane = loaded.ok ? loaded.value.laneById.get(id) : undefined
    return loaded.ok && lane !== undefined ? dqBallsOf(loaded.value, lane) : undefined
  }, [board, id])
}

/** The order, or why there is none. */
function orderOf(text: string, balls: readonly string[]): DqOrder | string {
  const seen = readFailedBits(text)
  const order = seen.ok ? learnDqOrder(balls, seen.value) : seen
  return order.ok ? order.value : order.faults.map(sayFault).slice(0, 2).join(' ')
}

const wholeOrder = ({ swaps, undeterminedBits }: DqOrder): readonly number[] | undefined =>
  undeterminedBits.length > 0 ? undefined : swaps.flatMap((dq) => dq ?? [])

function Told({ order, balls }: { readonly order: DqOrder; readonly balls: readonly string[] }) {
  const { swaps, undeterminedBits, nextBalls, contradictions } = order
  return (
    <ul className={styles.plainList} role="status">
      {swaps.map((dq, bit) =>
        dq === undefined ? undefined : (
          <li key={balls[dq]}>{say('bit {bit}: DQ{dq}, ball {balls}', { bit, dq, balls: balls[dq] })}</li>
        ),
      )}
      {undeterminedBits.length > 0 && (
        <li>
          {say('{length, plural, one {# bit} other {# bits}} not known: {undeterminedBits}. Next: {joined}.', {
            length: undeterminedBits.length,
            undeterminedBits: joined(undeterminedBits.map(String)),
            joined: joined([...nextBalls]),
          })}
        </li>
      )}
      {contradictions.length > 0 && (
        <li>{say('Don’t fit: lines {contradictions}.', { contradictions: someOf(contradictions.map(String), 8) })}</li>
      )}
    </ul>
  )
}
