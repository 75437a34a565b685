using System.CommandLine;
using System.CommandLine.Parsing;

namespace PupilBridge.Configuration;

/// <summary>The option <c>--set KEY=VALUE</c>, which may stand several times.</summary>
internal static class SetOption
{
    /// <summary>Makes the option.</summary>
    /// <returns>A fresh option with its own checks.</returns>
    public static Option<string[]> Make()
    {
        var option = new Option<string[]>("--set")
        {
            Description = "Set one value for this run, stronger than files and environment. May stand several times.",
            HelpName = "KEY=VALUE",
            Arity = ArgumentArity.OneOrMore,
        };
        option.Validators.Add(Check);
        return option;
    }

    /// <summary>The keys and values that were given; the last one of a key counts.</summary>
    /// <param name="given">The option's values.</param>
    /// <returns>Values by key.</returns>
    public static Dictionary<string, string?> Values(string[]? given)
    {
        var values = new Dictionary<string, string?>(StringComparer.OrdinalIgnoreCase);
        foreach (var pair in given ?? [])
        {
            var parts = pair.Split('=', 2);
            values[parts[0].Trim()] = parts[1].Trim();
        }

        return values;
    }

    private static void Check(OptionResult result)
    {
        foreach (var token in result.Tokens)
        {
            if (token.Value.IndexOf('=', StringComparison.Ordinal) < 1)
            {
                result.AddError($"--set needs KEY=VALUE, for example Bridge:Baud=57600; this is '{token.Value}'.");
            }
        }
    }
}
