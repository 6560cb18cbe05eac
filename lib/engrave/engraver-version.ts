/** The engraving library, as it names itself. A test holds it against the package. */
const libraryVersion = "6.3.0";
/** Counted up whenever our layouts, our normalising or what is done to the pictures changes. */
const pictureVersion = 7;

/** Changes when the same score would be engraved otherwise: part of every key under which engravings are kept. */
export const engraverVersion = `verovio-${libraryVersion}+${pictureVersion}`;
