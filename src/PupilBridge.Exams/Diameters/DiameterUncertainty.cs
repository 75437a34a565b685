using PupilBridge.Exams.Calibration;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Diameters;

/// <summary>From the difference of two readings to a diameter with its uncertainty.</summary>
public static class DiameterUncertainty
{
    /// <summary>
    /// The standard uncertainty of a difference of two readings that comes from the scale's resolution alone. Each reading
    /// lies anywhere within half a step of its number, a rectangular distribution of half-width a = r/2, whose variance is
    /// a²/3 (JCGM 100:2008, 4.3.7); two independent readings add up to r²/6.
    /// </summary>
    /// <param name="resolution">The step of the scale, 0 or more.</param>
    /// <returns>The standard uncertainty, in mm.</returns>
    public static double FromResolution(Micrometres resolution) => resolution.Millimetres / Math.Sqrt(6);

    /// <summary>
    /// The diameter with all that is known of its uncertainty: resolution, the setting of the edges on a living eye, and
    /// the correction, combined as independent contributions (JCGM 100:2008, 5.1.2).
    /// </summary>
    /// <param name="raw">The difference as read.</param>
    /// <param name="resolution">The step of the scale.</param>
    /// <param name="settingRepeatability">The standard uncertainty of a diameter from setting the edges again.</param>
    /// <param name="correction">The scale's correction.</param>
    /// <returns>The diameter.</returns>
    public static Diameter Of(
        Micrometres raw,
        Micrometres resolution,
        Micrometres settingRepeatability,
        ICorrection correction
    )
    {
        ArgumentNullException.ThrowIfNull(correction);
        var (value, fromCorrection) = correction.Apply(raw.Millimetres);
        var fromResolution = FromResolution(resolution);
        var fromSetting = settingRepeatability.Millimetres;
        var combined = Math.Sqrt(
            (fromResolution * fromResolution) + (fromSetting * fromSetting) + (fromCorrection * fromCorrection)
        );
        return new(value, combined, correction.IsCalibrated)
        {
            Shared = correction is CertifiedCorrection by ? new(by, raw.Millimetres) : null,
        };
    }
}
