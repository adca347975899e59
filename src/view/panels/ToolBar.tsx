/** The one tool bar: what the hand does, a letter a tool, and a lock that keeps the tool in the hand. */
import { say } from '../../base/index.ts'
import {
  Crosshair,
  Fence,
  Lock,
  LockOpen,
  type LucideIcon,
  MousePointer2,
  PencilRuler,
  Ruler,
  StickyNote,
} from 'lucide-react'
import { type BarTool, barToolOf, barTools, LOCK_KEY, switchLock, takeBarTool } from '../actions/tools.ts'
import styles from '../controls/sheetPane.module.css'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { useTools } from '../stores/toolStore.ts'

const told: Readonly<Record<BarTool, { readonly Icon: LucideIcon; readonly words: string; readonly help: string }>> = {
  select: { Icon: MousePointer2, words: say('Select'), help: say('Select and move') },
  spill: {
    Icon: Crosshair,
    words: say('{as, select, tool {Spill} other {Spill}}', { as: 'tool' }),
    help: say('Point at where it landed'),
  },
  mark: { Icon: PencilRuler, words: say('Mark'), help: say('Mark what you see, or where there is nothing') },
  dam: { Icon: Fence, words: say('Dam'), help: say('A gasket, frame or tape that stopped the flow') },
  note: { Icon: StickyNote, words: say('Note'), help: say('Words at a place') },
  'measure-distance': { Icon: Ruler, words: say('Distance'), help: say('Measure between two points') },
}

export function ToolBar() {
  const desk = useDesk()
  const held = useScreen((screen) => barToolOf(screen.tool))
  const naming = useScreen((screen) => screen.naming.held !== undefined)
  const isLocked = useTools((tools) => tools.isLocked)
  const Keeper = isLocked ? Lock : LockOpen
  return (
    <div className={styles.joined} role="group" aria-label={say('What the hand does')}>
      {barTools.map(({ tool, key }) => {
        const { Icon, words, help } = told[tool]
        return (
          <button
            key={tool}
            type="button"
            aria-pressed={tool === held && !naming}
            aria-keyshortcuts={key}
            title={`${help} (${key})`}
            onClick={() => takeBarTool(desk, tool)}
          >
            <Icon size={15} aria-hidden="true" /> {words} <kbd aria-hidden="true">{key}</kbd>
          </button>
        )
      })}
      <button
        type="button"
        aria-pressed={isLocked}
        aria-label={say('Keep the tool')}
        aria-keyshortcuts={LOCK_KEY}
        title={say('Keep the tool in the hand after each mark ({LOCKKEY})', { LOCKKEY: LOCK_KEY })}
        onClick={() => switchLock(desk)}
      >
        <Keeper size={15} aria-hidden="true" />
      </button>
    </div>
  )
}
