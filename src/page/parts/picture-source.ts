import { createContext } from 'preact';

/** What a saved picture says of where its figures are from; '' while there are none. */
export const PictureSource = createContext<() => string>(() => '');
