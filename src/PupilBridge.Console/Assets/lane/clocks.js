// Running times, reckoned from the service's clock: the board says what time it was there when it was made.

/** How far the service's clock is ahead of the page's, in ms. */
export function aheadOf(board, receivedAt) {
    return Date.parse(board.now) - receivedAt;
}

/** The time in ms since a moment of the service's clock; null if there is none. */
export function since(moment, ahead, now) {
    return moment === null || moment === undefined ? null : Math.max(0, now + ahead - Date.parse(moment));
}

/** A time as minutes and seconds. */
export function clock(milliseconds) {
    const seconds = Math.floor(milliseconds / 1000);
    return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** How much of a dwell has run, from 0 to 1; null where none is wanted or none runs. */
export function dwellRun(eye, ahead, now) {
    const lit = eye.isLit ? since(eye.litSince, ahead, now) : null;
    return lit === null || !eye.dwellWantedMilliseconds ? null : Math.min(1, lit / eye.dwellWantedMilliseconds);
}
