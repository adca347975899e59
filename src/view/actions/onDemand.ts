/** Actions that nobody asks for before something is drawn: loaded with the first question, or before, while nothing else is to be done. */
export const takeFile: typeof import('./drop.ts').takeFile = async (desk, ...given) =>
  (await import('./drop.ts')).takeFile(desk, ...given)

export const takeFiles: typeof import('./drop.ts').takeFiles = async (desk, ...given) =>
  (await import('./drop.ts')).takeFiles(desk, ...given)

export const downloadCase: typeof import('./exchange.ts').downloadCase = async (desk, ...given) =>
  (await import('./exchange.ts')).downloadCase(desk, ...given)

export const allowCopies: typeof import('./copies.ts').allowCopies = async (desk) =>
  (await import('./copies.ts')).allowCopies(desk)

export const chooseFolder: typeof import('./copies.ts').chooseFolder = async (desk) =>
  (await import('./copies.ts')).chooseFolder(desk)

export const stopCopies: typeof import('./copies.ts').stopCopies = async (desk) =>
  (await import('./copies.ts')).stopCopies(desk)

export const loadActions = async (): Promise<void> => {
  await import('./drop.ts')
}
