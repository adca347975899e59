/** The editor of a board: strip, sheet, side panel with what is selected, the check, and what keeps it as a version. */
import { say } from '../../base/index.ts'
import { CircleAlert, X } from 'lucide-react'
import { Button } from '../controls/Button.tsx'
import { AddressPanel } from './AddressPanel.tsx'
import { BoardPanel } from './BoardPanel.tsx'
import { CheckList } from './CheckList.tsx'
import { EditorSheet } from './EditorSheet.tsx'
import { type EditorStore, type EditorTab, editorTabs } from './editorStore.ts'
import type { BoardSubject } from './keepVersion.ts'
import { LanesPanel } from './LanesPanel.tsx'
import styles from './own-board.module.css'
import { PartsPanel } from './PartsPanel.tsx'
import { RailsPanel } from './RailsPanel.tsx'
import { SavePanel } from './SavePanel.tsx'
import { ToolStrip } from './ToolStrip.tsx'
import { useCheck } from './useCheck.ts'
import { EditorContext, useEditor, useEditorStore } from './useEditor.ts'

interface EditorProps {
  readonly editor: EditorStore
  readonly subject: BoardSubject
  readonly onKept: (board: string, number: number) => void
}

export function Editor({ editor, ...rest }: EditorProps) {
  return (
    <EditorContext value={editor}>
      <Inside {...rest} />
    </EditorContext>
  )
}

function Inside({ subject, onKept }: Omit<EditorProps, 'editor'>) {
  const board = useEditor(({ session }) => session.board)
  const held = useEditor((state) => state.held)
  const check = useCheck(board, held)
  return (
    <div className={styles.editor}>
      <ToolStrip />
      <EditorSheet check={check} />
      <div className={styles.side}>
        <Refused />
        <Tabs />
        <div className={styles.below}>
          <CheckList check={check} />
          <SavePanel subject={subject} faults={check.faults} onKept={onKept} />
        </div>
      </div>
    </div>
  )
}

function Refused() {
  const editor = useEditorStore()
  const refused = useEditor((state) => state.refused)
  return (
    <div role="alert">
      {refused !== undefined && (
        <p className={styles.refused}>
          <CircleAlert size={16} aria-hidden="true" />
          <span>{say('Not done. {refused}', { refused })}</span>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Close')}
            onClick={() => editor.setState({ refused: undefined })}
          >
            <X size={15} aria-hidden="true" />
          </Button>
        </p>
      )}
    </div>
  )
}

const tabs: Readonly<Record<EditorTab, { readonly words: string; readonly Panel: () => React.ReactNode }>> = {
  parts: { words: say('Parts'), Panel: PartsPanel },
  rails: { words: say('Rails'), Panel: RailsPanel },
  lanes: { words: say('Lanes'), Panel: LanesPanel },
  addresses: { words: say('Addresses'), Panel: AddressPanel },
  board: { words: say('Board'), Panel: BoardPanel },
}

function Tabs() {
  const editor = useEditorStore()
  const tab = useEditor((state) => state.tab)
  const { Panel } = tabs[tab]
  return (
    <div className={styles.panel}>
      <div className={styles.tabs} role="tablist" aria-label={say('What the panel shows')}>
        {editorTabs.map((name) => (
          <button
            key={name}
            type="button"
            role="tab"
            id={`editor-tab-${name}`}
            aria-selected={name === tab}
            aria-controls="editor-panel"
            tabIndex={name === tab ? 0 : -1}
            onClick={() => editor.setState({ tab: name, tool: 'select' })}
            onKeyDown={(event) => {
              const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0
              const next = editorTabs[(editorTabs.indexOf(name) + by + editorTabs.length) % editorTabs.length]
              if (by === 0 || next === undefined) return
              editor.setState({ tab: next, tool: 'select' })
              document.getElementById(`editor-tab-${next}`)?.focus()
            }}
          >
            {tabs[name].words}
          </button>
        ))}
      </div>
      <div className={styles.tabPanel} role="tabpanel" id="editor-panel" aria-labelledby={`editor-tab-${tab}`}>
        <Panel />
      </div>
    </div>
  )
}
