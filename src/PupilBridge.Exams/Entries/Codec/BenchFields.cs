using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>The fields of the service bench's entries. Real numbers are written as their 64 bits, so that none is ever rounded.</summary>
internal static class BenchFields
{
    public static void Real(this EntryWriter writer, double value) =>
        writer.Fixed64(BitConverter.DoubleToUInt64Bits(value));

    public static double Real(ref this EntryReader reader) => BitConverter.UInt64BitsToDouble(reader.Fixed64());

    public static void Step(this EntryWriter writer, BenchStep step)
    {
        writer.Choice(step.Eye);
        writer.OptionalText(step.Disc);
        writer.Optional(step.Light, static (w, light) => w.Choice(light));
    }

    public static BenchStep Step(ref this EntryReader reader) =>
        new(reader.Choice<Eye>(), reader.OptionalText(), reader.Optional(static (ref r) => r.Choice<RoomLight>()));

    public static void Rule(this EntryWriter writer, DecisionRule rule)
    {
        writer.Choice(rule.Kind);
        writer.Real(rule.MaximumPermissibleErrorMillimetres);
        writer.Real(rule.GuardBandFactor);
    }

    public static DecisionRule Rule(ref this EntryReader reader) =>
        new(reader.Choice<DecisionRuleKind>(), reader.Real(), reader.Real());

    public static void Discs(this EntryWriter writer, DiscSet set)
    {
        writer.Text(set.Name);
        writer.Text(set.CertificateNumber);
        writer.Text(set.CertifiedBy);
        writer.Signed(set.Certified.DayNumber);
        writer.Optional(set.Expires, static (w, day) => w.Signed(day.DayNumber));
        writer.Real(set.CommonUncertaintyMillimetres);
        writer.List(
            set.Discs,
            static (w, disc) =>
            {
                w.Text(disc.Name);
                w.Real(disc.DiameterMillimetres);
                w.Real(disc.StandardUncertaintyMillimetres);
            }
        );
    }

    public static DiscSet Discs(ref this EntryReader reader) =>
        new()
        {
            Name = reader.Text(),
            CertificateNumber = reader.Text(),
            CertifiedBy = reader.Text(),
            Certified = DateOnly.FromDayNumber(reader.Int32()),
            Expires = reader.Optional(static (ref r) => DateOnly.FromDayNumber(r.Int32())),
            CommonUncertaintyMillimetres = reader.Real(),
            Discs = reader.List(static (ref r) => new Disc(r.Text(), r.Real(), r.Real())),
        };

    public static void Scale(this EntryWriter writer, CalibratedScale scale)
    {
        var line = scale.Line;
        writer.Real(line.Origin);
        writer.Real(line.Intercept);
        writer.Real(line.Slope);
        writer.Variance(line.FromReadings);
        writer.Real(line.DegreesOfFreedom);
        writer.Variance(line.FromDiscs);
        writer.Real(line.Straightness.StandardUncertainty);
        writer.Flag(line.Straightness.IsFromReadings);
        writer.Real(line.Common.StandardUncertainty);
        writer.Real(line.Common.DegreesOfFreedom);
        writer.Real(scale.RepeatabilityMillimetres);
        writer.Choice(scale.Statement);
        writer.Real(scale.SmallestMillimetres);
        writer.Real(scale.LargestMillimetres);
    }

    public static CalibratedScale Scale(ref this EntryReader reader) =>
        new(
            new CorrectionLine(reader.Real(), reader.Real(), reader.Real(), reader.Variance(), reader.Real())
            {
                FromDiscs = reader.Variance(),
                Straightness = new(reader.Real(), reader.Flag()),
                Common = new(reader.Real(), reader.Real()),
            },
            reader.Real(),
            reader.Choice<ConformityStatement>(),
            reader.Real(),
            reader.Real()
        );

    private static void Variance(this EntryWriter writer, LineVariance variance)
    {
        writer.Real(variance.Intercept);
        writer.Real(variance.Slope);
        writer.Real(variance.Covariance);
    }

    private static LineVariance Variance(ref this EntryReader reader) =>
        new(reader.Real(), reader.Real(), reader.Real());
}
