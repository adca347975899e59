/** What Chromium adds to handles of files and folders (WICG, File System Access), and TypeScript's own types lack. */
interface FileSystemHandle {
  queryPermission?(wanted: { readonly mode: 'read' | 'readwrite' }): Promise<PermissionState>
  requestPermission?(wanted: { readonly mode: 'read' | 'readwrite' }): Promise<PermissionState>
}

interface Window {
  showDirectoryPicker?(wanted: {
    readonly id?: string
    readonly mode: 'read' | 'readwrite'
  }): Promise<FileSystemDirectoryHandle>
}
