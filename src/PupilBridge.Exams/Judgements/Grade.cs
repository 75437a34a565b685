using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace PupilBridge.Exams.Judgements;

/// <summary>
/// How strongly a pupil responds: 0 (none) to 4 (brisk and large) in half steps, or "could not see". The steps are common
/// practice; no metric standard for them exists. The default value is "could not see", so that a forgotten grade never
/// reads as one.
/// </summary>
[JsonConverter(typeof(GradeJsonConverter))]
public readonly record struct Grade
{
    /// <summary>The number of half steps of the highest grade.</summary>
    public const int MaxHalfSteps = 8;

    // One more than the number of half steps; 0 is "could not see".
    private readonly byte stored;

    private Grade(byte stored) => this.stored = stored;

    /// <summary>The response could not be seen; it says nothing about the pupil.</summary>
    public static Grade CouldNotSee => default;

    /// <summary>Whether there is a grade at all.</summary>
    public bool WasSeen => stored != 0;

    /// <summary>The number of half steps, 0 to 8; null if it could not be seen.</summary>
    public int? HalfSteps => WasSeen ? stored - 1 : null;

    /// <summary>The grade, 0 to 4; null if it could not be seen.</summary>
    public double? Value => HalfSteps / 2.0;

    /// <summary>A grade by its half steps.</summary>
    /// <param name="halfSteps">0 to 8.</param>
    /// <returns>The grade.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside that range.</exception>
    public static Grade FromHalfSteps(int halfSteps) =>
        halfSteps is >= 0 and <= MaxHalfSteps
            ? new((byte)(halfSteps + 1))
            : throw new ArgumentOutOfRangeException(
                nameof(halfSteps),
                halfSteps,
                "A grade has 0 to 8 half steps (0 to 4)."
            );

    /// <summary>A grade in whole steps.</summary>
    /// <param name="steps">0 to 4.</param>
    /// <returns>The grade.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside that range.</exception>
    public static Grade Of(int steps) =>
        steps is >= 0 and <= MaxHalfSteps / 2
            ? FromHalfSteps(2 * steps)
            : throw new ArgumentOutOfRangeException(nameof(steps), steps, "A grade is 0 to 4.");

    /// <summary>Reads <c>0</c>, <c>0.5</c>, … <c>4</c>, or <c>?</c> for "could not see".</summary>
    /// <param name="text">The text.</param>
    /// <param name="grade">The grade read.</param>
    /// <returns>False if the text is something else.</returns>
    public static bool TryParse(string? text, out Grade grade)
    {
        grade = CouldNotSee;
        if (text == "?")
            return true;
        if (text is null || text.Length is 0 or > 3 || !char.IsAsciiDigit(text[0]))
            return false;
        var whole = text[0] - '0';
        var half = text[1..] switch
        {
            "" or ".0" => 2 * whole,
            ".5" => (2 * whole) + 1,
            _ => -1,
        };
        if (half is < 0 or > MaxHalfSteps)
            return false;
        grade = FromHalfSteps(half);
        return true;
    }

    /// <summary><c>0</c>, <c>0.5</c>, … <c>4</c>, or <c>?</c> for "could not see"; <see cref="TryParse"/> reads it back.</summary>
    public override string ToString() => Value?.ToString("0.#", CultureInfo.InvariantCulture) ?? "?";
}

/// <summary>Writes a grade as the text of <see cref="Grade.ToString"/>.</summary>
public sealed class GradeJsonConverter : JsonConverter<Grade>
{
    /// <inheritdoc/>
    public override Grade Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        Grade.TryParse(reader.GetString(), out var grade)
            ? grade
            : throw new JsonException("A grade is written as 0, 0.5, … 4, or ? for \"could not see\".");

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Grade value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        writer.WriteStringValue(value.ToString());
    }
}
