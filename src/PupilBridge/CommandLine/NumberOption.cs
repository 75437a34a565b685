using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace PupilBridge.CommandLine;

/// <summary>
/// Options that take decimal numbers, written with a point whatever the machine's language. A comma is refused: read as a
/// mark between thousands, 1,5 would silently become 15.
/// </summary>
internal static class NumberOption
{
    /// <summary>An option that takes one number.</summary>
    /// <param name="name">Its name with dashes.</param>
    /// <param name="helpName">What stands for the number in the help text.</param>
    /// <param name="description">What it means, with its unit.</param>
    /// <returns>The option; null where it is not given.</returns>
    public static Option<double?> One(string name, string helpName, string description) =>
        new(name)
        {
            Description = description,
            HelpName = helpName,
            CustomParser = result => Parse(result, result.Tokens[0].Value),
        };

    /// <summary>An option that takes several numbers, in a row or each with the option's name.</summary>
    /// <param name="name">Its name with dashes.</param>
    /// <param name="helpName">What stands for a number in the help text.</param>
    /// <param name="description">What it means, with its unit.</param>
    /// <returns>The option; empty where it is not given.</returns>
    public static Option<double[]> Several(string name, string helpName, string description) =>
        new(name)
        {
            Description = description,
            HelpName = helpName,
            Arity = ArgumentArity.OneOrMore,
            AllowMultipleArgumentsPerToken = true,
            DefaultValueFactory = _ => [],
            CustomParser = result => [.. result.Tokens.Select(token => Parse(result, token.Value) ?? double.NaN)],
        };

    private static double? Parse(ArgumentResult result, string text)
    {
        if (
            double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            && double.IsFinite(number)
        )
        {
            return number;
        }

        var option = (result.Parent as OptionResult)?.Option.Name ?? "The option";
        result.AddError(
            text.Contains(',', StringComparison.Ordinal)
                ? $"{option}: '{text}' has a comma; write the number with a point, as in 1.5."
                : $"{option}: '{text}' is no number; write it as in 12.5 or 1e-4."
        );
        return null;
    }
}
