using System.Text.Json;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Records;

/// <summary>The words of a record: names of values in lower case with hyphens.</summary>
internal static class RecordWords
{
    public static string Of<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    public static string? OfMaybe<T>(T? value)
        where T : struct, Enum => value is { } known ? Of(known) : null;

    /// <summary>A block; null for none.</summary>
    public static string? OfBlock(Block block) => block == Block.None ? null : Of(block);

    public static string Of(UtcTime time) => time.ToString();

    /// <summary>A length in whole micrometres, halves away from zero; beyond what 32 bits hold, their nearest end.</summary>
    public static int Micrometres(double millimetres) =>
        (int)Math.Clamp(Math.Round(millimetres * 1000, MidpointRounding.AwayFromZero), int.MinValue, int.MaxValue);
}
