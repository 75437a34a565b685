using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria;

/// <summary>
/// The limits in use, with the published defaults. What has no published number says that it is ours; all of it is configuration.
/// </summary>
public sealed record CriteriaLimits
{
    /// <summary>
    /// The descriptive limit of a size difference. 0.4 mm: Lam BL, Thompson HS, Corbett JJ, Am J Ophthalmol 1987;104(1):69-73.
    /// </summary>
    public required Micrometres DescriptiveAnisocoria { get; init; }

    /// <summary>The clinical limit of a size difference. 1.0 mm: textbook convention.</summary>
    public required Micrometres ClinicalAnisocoria { get; init; }

    /// <summary>The limit of the dilation lag. 0.4 mm: Crippa SV et al., Am J Ophthalmol 2007;143(4):712-715.</summary>
    public required Micrometres DilationLag { get; init; }

    /// <summary>The early time in the dark for the lag, in ms. 5 s: same source.</summary>
    public required int LagEarlyMilliseconds { get; init; }

    /// <summary>The late time in the dark for the lag, in ms. 15 s: same source.</summary>
    public required int LagLateMilliseconds { get; init; }

    /// <summary>How far a size may be from those times and still count, in ms. Ours: 2 s.</summary>
    public required int LagWindowMilliseconds { get; init; }

    /// <summary>A direct response of at most this is poor, and makes the near response due. Ours: 1.</summary>
    public required Grade PoorDirectAtMost { get; init; }

    /// <summary>By how many half steps near must exceed light to be surely more. No published number; ours: 2 (one grade).</summary>
    public required int DissociationHalfSteps { get; init; }

    /// <summary>A check of the lamps' balance older than this is overdue, in days. Ours: 365.</summary>
    public required int LampBalanceDays { get; init; }

    /// <summary>How long the better eye is lit before Bell's grade IV can be given, in ms. 6 s: Bell RA et al. 1993.</summary>
    public required int BellProlongedMilliseconds { get; init; }

    /// <summary>
    /// The standard deviation of a pupil's size between two visits. 0.19 mm, computed from a published interval: 40 subjects,
    /// sessions 1 to 7 days apart, 5 min in the dark, mean difference 0.032 mm (95 % CI -0.030 to 0.094), so that
    /// 0.062·√40/2.0227 = 0.194. Applied to other lights and to differences between the eyes by assumption.
    /// </summary>
    public required Micrometres BetweenVisits { get; init; }

    /// <summary>Two visits' room lights are alike if their lux differ by at most this factor. Ours: 1.5.</summary>
    public required double LikeLightFactor { get; init; }

    /// <summary>
    /// How far healthy people's sizes lie from the expected one in dim light, in either direction. 2.1 mm, ours: it holds all 263
    /// people of Bradley et al. 2011 around the mean of their decade.
    /// </summary>
    public required Micrometres SpreadDim { get; init; }

    /// <summary>The same in very bright light. 1.05 mm, ours: half of it, as Winn et al. 1994 found the spread to halve.</summary>
    public required Micrometres SpreadBright { get; init; }

    /// <summary>
    /// How far people without eye disease lie from the expected size: the dim spread up to 9 cd/m², the bright one from 4400, straight
    /// in the logarithm between (ours; the two luminances are the ends of Winn et al. 1994).
    /// </summary>
    /// <param name="luminance">The luminance, in cd/m², more than 0.</param>
    /// <returns>The half-width, in mm.</returns>
    public double SpreadAt(double luminance)
    {
        const double dimmest = 9;
        const double brightest = 4400;
        var part = Math.Clamp(Math.Log10(luminance / dimmest) / Math.Log10(brightest / dimmest), 0, 1);
        return SpreadDim.Millimetres + (part * (SpreadBright.Millimetres - SpreadDim.Millimetres));
    }

    /// <summary>The limits that ship with the program.</summary>
    public static CriteriaLimits Default { get; } =
        new()
        {
            DescriptiveAnisocoria = new(400),
            ClinicalAnisocoria = new(1000),
            DilationLag = new(400),
            LagEarlyMilliseconds = 5_000,
            LagLateMilliseconds = 15_000,
            LagWindowMilliseconds = 2_000,
            PoorDirectAtMost = Grade.Of(1),
            DissociationHalfSteps = 2,
            LampBalanceDays = 365,
            BellProlongedMilliseconds = 6_000,
            BetweenVisits = new(190),
            LikeLightFactor = 1.5,
            SpreadDim = new(2_100),
            SpreadBright = new(1_050),
        };

    /// <summary>The defaults with what an exam's own profile says, so that chart and findings use the same limits.</summary>
    /// <param name="profile">The profile in force in the exam.</param>
    /// <param name="configured">Limits in place of the defaults; null for those.</param>
    /// <returns>The limits.</returns>
    public static CriteriaLimits For(Profile profile, CriteriaLimits? configured = null)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return (configured ?? Default) with
        {
            DescriptiveAnisocoria = profile.Chart.EqualWithin,
            PoorDirectAtMost = profile.Chart.NearDueAtMost,
        };
    }
}
