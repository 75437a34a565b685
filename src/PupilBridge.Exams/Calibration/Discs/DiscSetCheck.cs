namespace PupilBridge.Exams.Calibration.Discs;

/// <summary>What is wrong with a set of discs.</summary>
public enum DiscSetFault
{
    /// <summary>A name or the certificate's number or issuer is missing.</summary>
    Nameless = 1,

    /// <summary>Fewer than three discs: a line meets any two, and nothing would show that a scale is not straight.</summary>
    TooFewDiscs = 2,

    /// <summary>Two discs of one name.</summary>
    NameTwice = 3,

    /// <summary>A diameter is no number above 0, or larger than any pupil's scale.</summary>
    ImpossibleDiameter = 4,

    /// <summary>An uncertainty is no number of 0 or more, or as large as the disc.</summary>
    ImpossibleUncertainty = 5,

    /// <summary>All diameters are the same.</summary>
    AllAlike = 6,

    /// <summary>It expires before it was certified.</summary>
    ExpiresBeforeCertified = 7,
}

/// <summary>Whether a set of discs can calibrate anything.</summary>
public static class DiscSetCheck
{
    /// <summary>The fewest discs.</summary>
    public const int FewestDiscs = 3;

    /// <summary>
    /// No pupil is wider, in mm; a disc that is larger was likely entered in another unit, such as 4000 for 4 mm.
    /// </summary>
    public const double WidestMillimetres = 20;

    /// <summary>Looks at a set.</summary>
    /// <param name="set">The set.</param>
    /// <returns>Every fault once, in the order of their numbers; empty if there is none.</returns>
    public static IReadOnlyList<DiscSetFault> Of(DiscSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        var discs = set.Discs;
        List<DiscSetFault> faults = [];
        void Note(DiscSetFault fault, bool isSo)
        {
            if (isSo)
                faults.Add(fault);
        }

        string[] names = [set.Name, set.CertificateNumber, set.CertifiedBy, .. discs.Select(disc => disc.Name)];
        Note(DiscSetFault.Nameless, names.Any(string.IsNullOrWhiteSpace));
        Note(DiscSetFault.TooFewDiscs, discs.Count < FewestDiscs);
        Note(DiscSetFault.NameTwice, discs.GroupBy(disc => disc.Name).Any(alike => alike.Count() > 1));
        Note(
            DiscSetFault.ImpossibleDiameter,
            discs.Any(disc => disc.DiameterMillimetres is not (> 0 and <= WidestMillimetres))
        );
        Note(
            DiscSetFault.ImpossibleUncertainty,
            set.CommonUncertaintyMillimetres is not (>= 0 and < 1)
                || discs.Any(disc =>
                    !(
                        disc.StandardUncertaintyMillimetres >= 0
                        && disc.StandardUncertaintyMillimetres < disc.DiameterMillimetres
                    )
                )
        );
        Note(
            DiscSetFault.AllAlike,
            discs.Count > 1 && discs.All(disc => disc.DiameterMillimetres.Equals(discs[0].DiameterMillimetres))
        );
        Note(DiscSetFault.ExpiresBeforeCertified, set.Expires < set.Certified);
        return faults;
    }
}
