/** The stock as a list: searched, added to, changed, taken in from a file and written into one. */
import { Download, FolderOpen, PackagePlus, Plus } from 'lucide-react'
import { useId, useState } from 'react'
import { bad, dayWords, decimals, good, numberWords, plainly, type Result, say } from '../../base/index.ts'
import { arrived, editedLine, removedLine, type StockItem, stockKindWords } from '../../case/index.ts'
import { today } from '../actions/clock.ts'
import { saveFile } from '../actions/saveFile.ts'
import { Button, LinkButton } from '../controls/Button.tsx'
import controls from '../controls/controls.module.css'
import { FileButton } from '../controls/FileButton.tsx'
import panel from '../controls/panel.module.css'
import { randomId } from '../shelf/memoryShelf.ts'
import type { KeptStock } from '../shelf/stockShelf.ts'
import { useDesk } from '../stores/hooks.ts'
import { readStockCsv, stockCsv } from './csv.ts'
import { ItemForm } from './ItemForm.tsx'
import type { Draft, Tell } from './StockPage.tsx'
import styles from './stock.module.css'

interface StockListProps {
  readonly stock: KeptStock
  readonly draft: Draft | undefined
  readonly setDraft: (draft: Draft | undefined) => void
  readonly tell: Tell
}

/** Larger files hold no list of a shop's parts. */
const MOST_BYTES = 20_000_000

export function StockList({ stock: { items, unreadable }, draft, setDraft, tell }: StockListProps) {
  const desk = useDesk()
  const id = useId()
  const [sought, setSought] = useState('')
  const words = sought.trim().toLowerCase().split(/\s+/)
  const shown = items.filter((item) => words.every((word) => wordsOf(item).includes(word)))
  const takeIn = async (file: File): Promise<Result<undefined>> => {
    if (file.size > MOST_BYTES)
      return bad({ path: file.name, found: `${Math.round(file.size / 1e6)} MB`, expected: say('a list of parts') })
    const read = readStockCsv(await file.text(), randomId)
    return read.ok ? await desk.caseShelf.stock.add(read.value) : read
  }
  return (
    <section className={panel.section} aria-label={say('Stock')}>
      <div className={styles.head}>
        <h2 className={panel.sub}>{say('Stock')}</h2>
        <label className="visually-hidden" htmlFor={id}>
          {say('Find in the stock')}
        </label>
        <input
          id={id}
          type="search"
          className={controls.input}
          placeholder={say('Find a part, place or donor')}
          value={sought}
          onChange={(event) => setSought(event.target.value)}
        />
        <Button tone="strong" onClick={() => setDraft({ fresh: { kind: 'memory', what: '', count: 1 } })}>
          <Plus size={15} aria-hidden="true" /> {say('Add')}
        </Button>
        <FileButton label={say('File of stock, CSV')} accept=".csv,text/csv" onFile={(file) => tell(takeIn(file))}>
          <FolderOpen size={15} aria-hidden="true" /> {say('Take in CSV…')}
        </FileButton>
        <Button
          disabled={items.length === 0}
          onClick={() => saveFile('stock.csv', new Blob([stockCsv(items)], { type: 'text/csv;charset=utf-8' }))}
        >
          <Download size={15} aria-hidden="true" /> CSV
        </Button>
      </div>
      {draft !== undefined && (
        <ItemForm
          key={draft.line?.id ?? 'new'}
          draft={draft}
          onDone={() => setDraft(undefined)}
          onSave={(item, released) => {
            setDraft(undefined)
            const { line } = draft
            tell(
              line === undefined
                ? desk.caseShelf.stock.add([item])
                : desk.caseShelf.stock.change(line.id, (now) => good(editedLine(now, line, item, released))),
            )
          }}
          onRemove={(gone) => {
            setDraft(undefined)
            tell(desk.caseShelf.stock.change(gone, (now) => good(removedLine(now, today()))))
          }}
        />
      )}
      {unreadable > 0 && (
        <p className={panel.quiet}>{say('{unreadable} lines can’t be read and stay as they are.', { unreadable })}</p>
      )}
      {items.length === 0 ? (
        <p className={panel.quiet}>{say('Nothing here yet. Add a line, or take in a list as CSV.')}</p>
      ) : (
        <div className={styles.scroller}>
          <Lines items={shown} onEdit={setDraft} tell={tell} />
        </div>
      )}
      {items.length > 0 && shown.length === 0 && (
        <p className={panel.quiet}>{say('No line has all of these words.')}</p>
      )}
    </section>
  )
}

/** A ball costs a fraction of the smallest coin. */
const priceWords = (price: number): string => (price < 0.1 ? plainly(Number(price.toPrecision(2))) : decimals(price, 2))

const wordsOf = ({ kind, what, package: named, place, donor, donorRef, note }: StockItem): string =>
  [kind, what, named, place, donor, donorRef, note].join(' ').toLowerCase()

interface LinesProps {
  readonly items: readonly StockItem[]
  readonly onEdit: (draft: Draft) => void
  readonly tell: Tell
}

function Lines({ items, onEdit, tell }: LinesProps) {
  const desk = useDesk()
  return (
    <table className={panel.table}>
      <caption className="visually-hidden">{say('Stock')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('what')}</th>
          <th scope="col">{say('package')}</th>
          <th scope="col" className={panel.number}>
            {say('count')}
          </th>
          <th scope="col" className={panel.number}>
            {say('taken')}
          </th>
          <th scope="col">{say('place')}</th>
          <th scope="col" className={panel.number}>
            {say('price')}
          </th>
          <th scope="col">{say('from')}</th>
          <th scope="col">{say('on order')}</th>
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <tr key={item.id}>
            <th scope="row">
              <LinkButton onClick={() => onEdit({ line: item })}>
                {item.kind === 'material' ? item.what : `${stockKindWords[item.kind]} ${item.what}`}
              </LinkButton>
              {item.note !== '' && <small className={styles.small}>{item.note}</small>}
            </th>
            <td>{item.package}</td>
            <td className={panel.number}>{numberWords(item.count)}</td>
            <td className={panel.number} title={item.reserved.map(({ card, count }) => `${card}: ${count}`).join(', ')}>
              {item.reserved.length > 0 && numberWords(item.reserved.reduce((sum, { count }) => sum + count, 0))}
            </td>
            <td>{item.place}</td>
            <td className={panel.number}>{item.price === undefined ? '' : priceWords(item.price)}</td>
            <td>
              {item.source === 'new'
                ? say('new')
                : say('card {card}', { card: `${item.donor} ${item.donorRef}`.trim() })}
            </td>
            <td>
              {item.ordered > 0 && (
                <span className={styles.ordered}>
                  {item.ordered}, {item.expectedOn === undefined ? say('no day') : dayWords(item.expectedOn)}
                  <Button
                    tone="quiet"
                    aria-label={say('{what}: {ordered} arrived', { what: item.what, ordered: item.ordered })}
                    onClick={() => tell(desk.caseShelf.stock.change(item.id, (now) => good(arrived(now))))}
                  >
                    <PackagePlus size={15} aria-hidden="true" /> {say('Arrived')}
                  </Button>
                </span>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
