using System.Globalization;

namespace PupilBridge.Worker.Options;

/// <summary>
/// One value that a person can set: its key, what it means, what is allowed, how it is read from text and how it is
/// checked. The same description serves reading, checking and the table in <c>docs/operation.md</c>.
/// </summary>
/// <param name="Key">The key below the section, for example <c>Baud</c>.</param>
/// <param name="Meaning">One line for the documentation.</param>
/// <param name="Default">The default as it would be written.</param>
/// <param name="Allowed">What is allowed, in words.</param>
/// <param name="Read">Takes text into the options; false if it cannot be understood.</param>
/// <param name="IsValid">Whether the value in the options is allowed.</param>
/// <param name="Write">The value in the options as text, for messages.</param>
public sealed record Setting(
    string Key,
    string Meaning,
    string Default,
    string Allowed,
    Func<BridgeOptions, string, bool> Read,
    Func<BridgeOptions, bool> IsValid,
    Func<BridgeOptions, string> Write
)
{
    /// <summary>The key as it is written in the configuration, with its section.</summary>
    public string FullKey => $"{BridgeOptions.Section}:{Key}";

    /// <summary>The message for a value that is not allowed.</summary>
    /// <param name="value">The value as written.</param>
    /// <returns>One sentence with key, value and what is allowed.</returns>
    public string Fault(string value) => $"{FullKey} is '{value}'; allowed is {Allowed}.";

    internal static Setting Whole(
        string key,
        string meaning,
        (int Low, int High) range,
        Func<BridgeOptions, int> get,
        Action<BridgeOptions, int> set
    ) =>
        new(
            key,
            meaning,
            get(new BridgeOptions()).ToString(CultureInfo.InvariantCulture),
            string.Create(CultureInfo.InvariantCulture, $"a whole number from {range.Low} to {range.High}"),
            (options, text) =>
            {
                var read = int.TryParse(
                    text,
                    NumberStyles.AllowLeadingSign,
                    CultureInfo.InvariantCulture,
                    out var value
                );
                if (read)
                    set(options, value);
                return read;
            },
            options => get(options) >= range.Low && get(options) <= range.High,
            options => get(options).ToString(CultureInfo.InvariantCulture)
        );

    internal static Setting Seconds(
        string key,
        string meaning,
        (double Low, double High) range,
        Func<BridgeOptions, TimeSpan> get,
        Action<BridgeOptions, TimeSpan> set
    ) =>
        new(
            key,
            meaning,
            InSeconds(get(new BridgeOptions())),
            string.Create(CultureInfo.InvariantCulture, $"a number of seconds from {range.Low} to {range.High}"),
            (options, text) =>
            {
                var read =
                    double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
                    && Math.Abs(value) < 1e9;
                if (read)
                    set(options, TimeSpan.FromSeconds(value));
                return read;
            },
            options => get(options).TotalSeconds >= range.Low && get(options).TotalSeconds <= range.High,
            options => InSeconds(get(options))
        );

    internal static Setting Text(
        string key,
        string meaning,
        (string Default, string Allowed) words,
        Func<BridgeOptions, string> get,
        Action<BridgeOptions, string> set,
        Func<string, bool> isValid
    ) =>
        new(
            key,
            meaning,
            words.Default,
            words.Allowed,
            (options, text) =>
            {
                set(options, text);
                return true;
            },
            options => isValid(get(options)),
            get
        );

    private static string InSeconds(TimeSpan span) => span.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);
}
