using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>The fields of a profile. Version 2 added the legend of the grades, at the end.</summary>
internal static class ProfileFields
{
    public const int Version = 2;

    public static void Write(EntryWriter w, Profile profile)
    {
        w.Text(profile.Name);
        w.Signed(profile.Version);
        w.List(profile.Steps, static (w, step) => w.Choice(step));
        w.Signed(profile.Direct.StimuliPerEye);
        w.Signed(profile.Direct.DwellMilliseconds);
        w.Signed(profile.Direct.GapMilliseconds);
        WriteTrain(w, profile.SwingShort);
        WriteTrain(w, profile.SwingLong);
        w.Signed(profile.DwellTolerancePercent);
        w.Signed(profile.Captures.PairWithinMilliseconds);
        w.Signed(profile.Captures.SmallestDiameter.Value);
        w.Signed(profile.Captures.LargestDiameter.Value);
        w.Signed(profile.Captures.SettingRepeatability.Value);
        w.Flag(profile.Captures.SettingRepeatabilityIsMeasured);
        w.Signed(profile.Light.DimAtMostMillilux);
        w.Signed(profile.Light.BrightAtLeastMillilux);
        w.Signed(profile.Light.DarkSettledAfterMilliseconds);
        w.Signed(profile.Light.DarkTimesAlikeWithinMilliseconds);
        w.Signed(profile.Closing.SilenceMilliseconds);
        w.Signed(profile.Closing.PassedStopMilliseconds);
        w.Signed(profile.Chart.EqualWithin.Value);
        JudgementFields.WriteGrade(w, profile.Chart.MinimumDirectGrade);
        JudgementFields.WriteGrade(w, profile.Chart.MinimumNearGrade);
        JudgementFields.WriteGrade(w, profile.Chart.NearDueAtMost);
        w.Signed(profile.Legend.Version);
        w.List(profile.Legend.Grades, static (w, text) => w.Text(text));
    }

    public static Profile Read(ref EntryReader r, int version) =>
        new()
        {
            Name = r.Text(),
            Version = r.Int32(),
            Steps = r.List(static (ref r) => r.Choice<ExamStep>()),
            Direct = new()
            {
                StimuliPerEye = r.Int32(),
                DwellMilliseconds = r.Int32(),
                GapMilliseconds = r.Int32(),
            },
            SwingShort = ReadTrain(ref r),
            SwingLong = ReadTrain(ref r),
            DwellTolerancePercent = r.Int32(),
            Captures = new()
            {
                PairWithinMilliseconds = r.Int32(),
                SmallestDiameter = new(r.Int32()),
                LargestDiameter = new(r.Int32()),
                SettingRepeatability = new(r.Int32()),
                SettingRepeatabilityIsMeasured = r.Flag(),
            },
            Light = new()
            {
                DimAtMostMillilux = r.Signed(),
                BrightAtLeastMillilux = r.Signed(),
                DarkSettledAfterMilliseconds = r.Int32(),
                DarkTimesAlikeWithinMilliseconds = r.Int32(),
            },
            Closing = new() { SilenceMilliseconds = r.Int32(), PassedStopMilliseconds = r.Int32() },
            Chart = new()
            {
                EqualWithin = new(r.Int32()),
                MinimumDirectGrade = JudgementFields.ReadGrade(ref r),
                MinimumNearGrade = JudgementFields.ReadGrade(ref r),
                NearDueAtMost = JudgementFields.ReadGrade(ref r),
            },
            Legend = version < 2 ? GradeLegend.Default : ReadLegend(ref r),
        };

    private static GradeLegend ReadLegend(ref EntryReader r) =>
        new() { Version = r.Int32(), Grades = r.List(static (ref r) => r.Text()) };

    private static void WriteTrain(EntryWriter w, SwingTrain train)
    {
        w.Signed(train.DwellMilliseconds);
        w.Signed(train.Alternations);
        w.Signed(train.MaxGapMilliseconds);
    }

    private static SwingTrain ReadTrain(ref EntryReader r) =>
        new()
        {
            DwellMilliseconds = r.Int32(),
            Alternations = r.Int32(),
            MaxGapMilliseconds = r.Int32(),
        };
}
