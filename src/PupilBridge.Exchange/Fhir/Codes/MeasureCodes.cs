namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>Codes of what an instrument measures.</summary>
internal static class MeasureCodes
{
    public static LocalCode[] All { get; } =
    [
        new(
            "pupil-diameter",
            "Pupil diameter",
            "Horizontal diameter of the entrance pupil of one eye in one light, in mm."
        ),
        new(
            "anisocoria",
            "Anisocoria",
            "How far the diameters of both pupils differ in one light, in mm, without a sign."
        ),
        new("larger-pupil", "Larger pupil", "The side on which the diameter is larger as measured."),
        new("neither", "Neither", "Both are equal as measured."),
        new(
            "expanded-uncertainty",
            "Expanded uncertainty",
            "The expanded uncertainty (k = 2, about 95 %) of the value, in its unit, after JCGM 100:2008."
        ),
        new(
            "scale-position-nasal",
            "Scale position, nasal edge",
            "Position read at the edge on the side of the nose, in mm."
        ),
        new(
            "scale-position-temporal",
            "Scale position, temporal edge",
            "Position read at the edge on the side of the temple, in mm."
        ),
        new("raw-difference", "Raw difference", "The difference of both positions as read, without correction, in mm."),
        new("scale-resolution", "Scale resolution", "The step of the scale, in mm."),
        new("capture-manner", "Manner of capture", "How the edges were taken."),
        new("marked", "Marked", "Both edges were marked by a key."),
        new(
            "nasal-edge-at-home",
            "Nasal edge at home",
            "The nasal edge was set by moving the instrument with the scale at home; the temporal edge is where it rested last."
        ),
        new("calibration-state", "Calibration state", "Whether reference discs stand behind the value."),
        new("calibrated", "Calibrated", "Corrected by a line fitted to reference discs."),
        new("not-calibrated", "Not calibrated", "No reference discs stand behind the value."),
        new("doubtful", "Doubtful", "Whether the state of the eye makes the value unreliable."),
        new("pupil-tester", "Pupil tester", "An instrument with a measuring scale and a lamp for each eye."),
        new("measuring-scale", "Measuring scale", "The sliding scale of one eye."),
        new("scale-difference", "Difference of both scales", "Calculated from the diameters of both eyes."),
    ];
}
