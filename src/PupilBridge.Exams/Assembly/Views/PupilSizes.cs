using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>The size of one pupil under one light: the latest capture, with what stands behind it.</summary>
/// <param name="Eye">Which eye.</param>
/// <param name="Light">Under which light.</param>
/// <param name="Diameter">The diameter with its uncertainty.</param>
/// <param name="Capture">The capture that it comes from.</param>
/// <param name="Superseded">How many earlier captures of the same eye and light are kept beside it.</param>
/// <param name="WithNearFixation">Whether the patient looked near, so that it is no size for distance.</param>
/// <param name="IsDoubtful">Whether the state of the eye makes it unreliable.</param>
public sealed record PupilSize(
    Eye Eye,
    RoomLight Light,
    Diameter Diameter,
    Capture Capture,
    int Superseded,
    bool WithNearFixation,
    bool IsDoubtful
);

/// <summary>The sizes of an exam.</summary>
public static class PupilSizes
{
    /// <summary>The size of one pupil under one light.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="eye">The eye.</param>
    /// <param name="light">The light, as it was said when the capture was made.</param>
    /// <param name="corrections">The corrections of both scales; null for those of the exam's own calibration, if it has one.</param>
    /// <returns>
    /// The latest capture; one with near fixation only where there is no other. Null if there is none: not examined.
    /// </returns>
    public static PupilSize? Of(Exam exam, Eye eye, RoomLight light, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var (far, near) = (default(Capture), default(Capture));
        var (farCount, nearCount) = (0, 0);
        foreach (var capture in exam.Captures)
        {
            if (capture.Eye != eye || capture.Light != light)
                continue;
            if (capture.Fixation == Fixation.Near)
                (near, nearCount) = (capture, nearCount + 1);
            else
                (far, farCount) = (capture, farCount + 1);
        }

        if ((far ?? near) is not { } latest)
            return null;
        var diameter = Measure(exam, latest, (corrections ?? exam.Corrections)?[eye] ?? Correction.None);
        var superseded = (far is null ? nearCount : farCount) - 1;
        return new(eye, light, diameter, latest, superseded, far is null, EyeEffects.OnSize(exam, eye));
    }

    /// <summary>The diameter of one capture.</summary>
    /// <param name="exam">The exam that holds it.</param>
    /// <param name="capture">The capture.</param>
    /// <param name="correction">The correction of that eye's scale.</param>
    /// <returns>The diameter with its uncertainty.</returns>
    public static Diameter Measure(Exam exam, Capture capture, ICorrection correction)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(capture);
        var setting = exam.Profile.Captures.SettingRepeatability;
        return DiameterUncertainty.Of(capture.Raw, capture.Resolution, setting, correction);
    }
}
