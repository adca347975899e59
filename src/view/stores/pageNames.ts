/** Pages that fill the window beside the ten stations: each is about more than the card on the desk. */
export const pageNames = ['parts', 'own-record', 'practice', 'speech', 'help'] as const
export type PageName = (typeof pageNames)[number]
