namespace PupilBridge.Clinic.Entries;

/// <summary>Enters a set of reference discs as its certificate describes it; a set of the same name takes the place of the earlier one.</summary>
public sealed record DiscSetEntry : DeskEntry
{
    /// <summary>The clinic's name for the set, 1 to 64 characters.</summary>
    public required string Name { get; init; }

    /// <summary>The number of its certificate.</summary>
    public required string CertificateNumber { get; init; }

    /// <summary>Who certified it.</summary>
    public required string CertifiedBy { get; init; }

    /// <summary>The day of the certificate.</summary>
    public required DateOnly Certified { get; init; }

    /// <summary>The last day on which it may be used; null where the certificate sets none.</summary>
    public DateOnly? Expires { get; init; }

    /// <summary>The standard uncertainty that all its diameters share, in mm.</summary>
    public double CommonUncertaintyMillimetres { get; init; }

    /// <summary>The discs, at least three.</summary>
    public required IReadOnlyList<DiscLine> Discs { get; init; }
}

/// <summary>One disc.</summary>
/// <param name="Name">What is written on it.</param>
/// <param name="DiameterMillimetres">Its certified diameter, in mm.</param>
/// <param name="StandardUncertaintyMillimetres">Its own standard uncertainty, in mm: the expanded one divided by its coverage factor.</param>
public sealed record DiscLine(string Name, double DiameterMillimetres, double StandardUncertaintyMillimetres);

/// <summary>Puts an instrument on the bench.</summary>
public sealed record BeginRunEntry : DeskEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required string Instrument { get; init; }

    /// <summary>What for: one of <see cref="Bench.BenchWords.Kinds"/>.</summary>
    public required string Kind { get; init; }

    /// <summary>The name of the set of discs; null where none is needed.</summary>
    public string? DiscSet { get; init; }

    /// <summary>
    /// Which discs of the set, by name; null for all of them. A quick check takes one; null for the one next to the middle of the range.
    /// </summary>
    public IReadOnlyList<string>? Discs { get; init; }

    /// <summary>How often each is read by each scale, or each eye in each light; null for the usual number.</summary>
    public int? Repeats { get; init; }

    /// <summary>How far the scales may lie off a straight line by their construction, as a standard uncertainty in mm.</summary>
    public double StraightnessMillimetres { get; init; }

    /// <summary>The room's temperature, in °C; null if it was not read.</summary>
    public double? TemperatureCelsius { get; init; }

    /// <summary>Other conditions; null for none.</summary>
    public string? Conditions { get; init; }
}

/// <summary>Something a person enters about a bench run.</summary>
public abstract record RunDeskEntry : DeskEntry
{
    private protected RunDeskEntry() { }

    /// <summary>The number of the run that the person saw.</summary>
    public required long Run { get; init; }
}

/// <summary>Sets a reading aside, or takes that back. A reason is needed for both.</summary>
public sealed record MarkReadingEntry : RunDeskEntry
{
    /// <summary>The journal's entry that completed the reading.</summary>
    public required long Reading { get; init; }

    /// <summary>Whether it is set aside; otherwise it counts again.</summary>
    public required bool IsSetAside { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}

/// <summary>Says what the room light is in a run, where the instrument does not tell.</summary>
public sealed record RunRoomLightEntry : RunDeskEntry
{
    /// <summary><c>bright</c> or <c>dim</c>.</summary>
    public required string Light { get; init; }
}

/// <summary>Ends a run.</summary>
public sealed record EndRunEntry : RunDeskEntry
{
    /// <summary>Whether it is finished; otherwise it is given up.</summary>
    public required bool IsFinished { get; init; }

    /// <summary>Why it is given up; null where it is finished.</summary>
    public string? Reason { get; init; }
}

/// <summary>Issues the certificate of a finished calibration.</summary>
public sealed record IssueEntry : RunDeskEntry
{
    /// <summary>The digest of the draft that the person saw, so that nothing else is issued than what was seen.</summary>
    public required string SeenDigest { get; init; }

    /// <summary>From when on it holds; null for now.</summary>
    public DateTimeOffset? Effective { get; init; }

    /// <summary>Until when it holds; null for the clinic's usual time.</summary>
    public DateTimeOffset? Expires { get; init; }
}

/// <summary>Lets the repeatability that a study found count for this instrument's exams from now on.</summary>
public sealed record AdoptRepeatabilityEntry : RunDeskEntry;

/// <summary>Enters what a lux meter, or the instrument's own, showed before each lamp.</summary>
public sealed record LampBalanceEntry : DeskEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required string Instrument { get; init; }

    /// <summary>
    /// The bench run in which the instrument's own meter read its lamps; the readings are taken from there, and nothing is typed. Null where
    /// a person read a meter.
    /// </summary>
    public long? FromRun { get; init; }

    /// <summary>The readings before the right lamp, in lux.</summary>
    public IReadOnlyList<double> RightLux { get; init; } = [];

    /// <summary>The readings before the left lamp, in lux.</summary>
    public IReadOnlyList<double> LeftLux { get; init; } = [];

    /// <summary>The step of the meter's display, in lux.</summary>
    public double StepLux { get; init; }

    /// <summary>Which meter; null if nobody says.</summary>
    public string? Meter { get; init; }
}
