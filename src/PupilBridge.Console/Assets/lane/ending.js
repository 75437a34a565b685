// When a session ends at the latest, and from when on that is told.

/** How long before the end it is told, in ms. */
export const toldBefore = 15 * 60_000;

/** The latest end of the session, by the page's own clock, which no setting of the machine's clock moves. */
export class Ending {
    #at = Infinity;

    /**
     * @param seconds How long the session still has, in s, as the service said; anything but a number where nobody is signed in.
     * @param now The page's clock, in ms.
     */
    constructor(seconds, now) {
        this.take(seconds, now);
    }

    /** The service said it anew. */
    take(seconds, now) {
        this.#at = typeof seconds === "number" ? now + seconds * 1000 : Infinity;
    }

    /** How many minutes are left, begun ones included; null while it is too early to tell. */
    minutes(now) {
        const left = this.#at - now;
        return left > toldBefore ? null : Math.max(0, Math.ceil(left / 60_000));
    }
}

/** Whether so few minutes are said aloud; each number is reached once. */
export const isSaid = (minutes) => minutes === 15 || minutes === 5 || minutes === 1;
