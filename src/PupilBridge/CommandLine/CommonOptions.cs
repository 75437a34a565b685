using System.CommandLine;
using System.CommandLine.Parsing;

namespace PupilBridge.CommandLine;

/// <summary>Options that mean the same wherever they stand.</summary>
internal static class CommonOptions
{
    /// <summary>The data folder; understood by every command.</summary>
    public static Option<string?> Data { get; } =
        new("--data")
        {
            Description = "The data folder. Without it: $PUPILBRIDGE_DATA, the service manager's folder, or your own.",
            HelpName = "DIR",
            Recursive = true,
            Validators = { RefuseOptionAsValue },
        };

    /// <summary>Refuses another option where a value belongs: it was forgotten, and the next word is none.</summary>
    /// <param name="result">The option as it was parsed.</param>
    public static void RefuseOptionAsValue(OptionResult result)
    {
        foreach (var token in result.Tokens.Where(token => token.Value.StartsWith("--", StringComparison.Ordinal)))
        {
            result.AddError($"{result.Option.Name} needs a value; '{token.Value}' is an option.");
        }
    }

    /// <summary>Makes a fresh <c>--json</c> option.</summary>
    /// <param name="description">What is printed then.</param>
    /// <returns>A switch that is off by default.</returns>
    public static Option<bool> Json(string description = "Print one JSON document instead of text.") =>
        new("--json") { Description = description };

    /// <summary>Makes a fresh <c>--limit</c> option, 1 to 500.</summary>
    /// <param name="description">The most of what, without a full stop.</param>
    /// <param name="usual">The limit where none is given.</param>
    public static Option<int> Limit(string description, int usual)
    {
        var limit = new Option<int>("--limit")
        {
            Description = $"{description}, 1 to 500.",
            HelpName = "N",
            DefaultValueFactory = _ => usual,
        };
        limit.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && int.TryParse(token.Value, out var n) && n is < 1 or > 500)
            {
                result.AddError($"--limit is '{n}'; allowed is 1 to 500.");
            }
        });
        return limit;
    }
}
