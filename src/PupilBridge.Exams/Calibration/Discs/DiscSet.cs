using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Calibration.Discs;

/// <summary>A set of reference discs that were certified together.</summary>
public sealed record DiscSet
{
    /// <summary>The clinic's name for the set.</summary>
    public required string Name { get; init; }

    /// <summary>The number of its certificate.</summary>
    public required string CertificateNumber { get; init; }

    /// <summary>Who certified it.</summary>
    public required string CertifiedBy { get; init; }

    /// <summary>The day of the certificate.</summary>
    public required DateOnly Certified { get; init; }

    /// <summary>The last day on which it may be used; null where the certificate sets none.</summary>
    public required DateOnly? Expires { get; init; }

    /// <summary>
    /// The standard uncertainty that all its diameters share, in mm, 0 or more, as that of the gauge they were all compared with
    /// (JCGM 100:2008, H.3.6). No number of discs or repeats makes it smaller.
    /// </summary>
    public required double CommonUncertaintyMillimetres { get; init; }

    /// <summary>The discs, in the order of their diameters.</summary>
    public required ValueList<Disc> Discs { get; init; }

    /// <summary>The disc of a name.</summary>
    /// <param name="name">What is written on it.</param>
    /// <returns>The disc; null if the set has none of that name.</returns>
    public Disc? Find(string name) => Discs.FirstOrDefault(disc => disc.Name == name);

    /// <summary>Whether its certificate holds no more.</summary>
    /// <param name="day">On which day.</param>
    /// <returns>True after the last day.</returns>
    public bool IsExpired(DateOnly day) => Expires is { } last && day > last;
}
