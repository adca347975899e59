/** Hands bytes over as a download under a name. */
const KEPT_MS = 60_000

export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // The browser reads it after this turn.
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS)
}
