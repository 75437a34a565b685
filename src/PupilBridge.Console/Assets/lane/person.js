// Which number goes on for the person behind a patient's number.

/**
 * @param {{patient: string, mergedInto?: string|null}} patient
 * @returns {string} The number into which this one is merged; the number itself where it is merged into none.
 */
export function numberOf(patient) {
    return patient.mergedInto ?? patient.patient;
}
