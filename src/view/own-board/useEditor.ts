/** React's way to the editor's state. */
import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { BoardDescription } from '../../board/index.ts'
import type { EditorState, EditorStore } from './editorStore.ts'

export const EditorContext = createContext<EditorStore | undefined>(undefined)

export function useEditorStore(): EditorStore {
  const editor = useContext(EditorContext)
  if (editor === undefined) throw new Error('no editor: the component is not inside Editor')
  return editor
}

export const useEditor = <T>(read: (state: EditorState) => T): T => useStore(useEditorStore(), read)

export const useEditedBoard = (): BoardDescription => useEditor(({ session }) => session.board)
