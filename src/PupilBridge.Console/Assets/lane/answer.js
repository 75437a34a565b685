// What the service's answer to an entry means for that entry.

/**
 * Reads an answer.
 * @param status The HTTP status.
 * @param body What came, as JSON; null if nothing did.
 * @returns {{is: "recorded"|"refused"|"again"|"renew"|"signIn", reason?: string, nextStep?: string, notice?: string|null, exam?: number|null}}
 *   recorded or refused for good; to be sent again later; to be sent again with a fresh form token; or after signing in.
 */
export function readAnswer(status, body) {
    if (status === 200 && body) {
        switch (body.outcome) {
            case "recorded":
            case "alreadyRecorded":
                return { is: "recorded", notice: body.notice ?? null, exam: body.exam ?? null };
            case "refused":
                return { is: "refused", reason: body.reason, nextStep: body.nextStep };
            default:
                return { is: "again" };
        }
    }

    if (status === 401) {
        return { is: "signIn" };
    }

    if (status === 408 || status === 429 || status >= 500 || status < 400) {
        return { is: "again" };
    }

    return body?.detail || body?.title
        ? { is: "refused", reason: body.detail ?? body.title, nextStep: body.nextStep ?? "" }
        : { is: "renew" };
}

/** How long to wait before the next try, in ms, after so many that failed. */
export function delayAfter(failed) {
    return Math.min(500 * 2 ** Math.max(0, failed - 1), 5000);
}
