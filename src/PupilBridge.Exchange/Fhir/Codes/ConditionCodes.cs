namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>Codes of sides, lights and circumstances, and of why a value is absent.</summary>
internal static class ConditionCodes
{
    public static LocalCode[] All { get; } =
    [
        new("pupil", "Pupil", "The pupil of one eye; which, is said by the code 'pupil-right' or 'pupil-left'."),
        new("pupil-right", "Pupil of the right eye", "OD: the pupil of the right eye."),
        new("pupil-left", "Pupil of the left eye", "OS: the pupil of the left eye."),
        new("pupils-both", "Pupils of both eyes", "OU: the pupils of both eyes."),
        new("side", "Side", "A side; which, is said by the code 'right' or 'left'."),
        new("right", "Right", "OD, the right eye."),
        new("left", "Left", "OS, the left eye."),
        new("both", "Both", "OU, both eyes."),
        new("illumination", "Illumination", "The room light, as a sensor or a person said."),
        new("bright", "Bright", "Bright room light."),
        new("dim", "Dim", "Dim room light."),
        new("illuminance", "Illuminance", "The reading of the instrument's light sensor, in lx."),
        new("dark-time", "Time in the dark", "How long the eye had been in the dark, in s."),
        new("fixation", "Fixation", "Where the patient looked."),
        new("far", "Far", "At something far away."),
        new("near", "Near", "At something near."),
        new("eye-status", "State of the eye", "What was entered of the state of one eye before the test."),
        new(
            "could-not-see",
            "Could not be seen",
            "It was looked for and could not be seen; this says nothing about the eye."
        ),
        new("not-examined", "Not examined", "It was not examined; this says nothing about the eye."),
        new(
            "accepted-not-examined",
            "Accepted as not examined",
            "It was not examined, and the examiner accepted that; this says nothing about the eye."
        ),
        new("not-possible", "Not possible", "The state of the eye leaves nothing to examine."),
    ];
}
