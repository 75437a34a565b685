using Microsoft.Extensions.Configuration;

namespace PupilBridge.Worker.Options;

/// <summary>
/// Reads the options out of the configuration. Text that cannot be understood and keys that do not exist are collected
/// with all other faults instead of ending the reading at the first, as a general binder would.
/// </summary>
public static class BridgeOptionsReader
{
    /// <summary>Reads the section into the options and says all that is wrong.</summary>
    /// <param name="configuration">The whole configuration; the section is <see cref="BridgeOptions.Section"/>.</param>
    /// <param name="options">The options to fill; values not named in the configuration stay.</param>
    /// <returns>One sentence for each fault; empty if all is well.</returns>
    public static IReadOnlyList<string> Read(IConfiguration configuration, BridgeOptions options)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        ArgumentNullException.ThrowIfNull(options);
        var faults = new List<string>();
        foreach (var given in configuration.GetSection(BridgeOptions.Section).GetChildren())
        {
            var setting = BridgeSettings.All.FirstOrDefault(s =>
                string.Equals(s.Key, given.Key, StringComparison.OrdinalIgnoreCase)
            );
            if (setting is null)
                faults.Add(Unknown(given.Key));
            else if (!setting.Read(options, TextOf(given)))
                faults.Add(setting.Fault(TextOf(given)));
        }

        faults.AddRange(BridgeOptionsValidator.Check(options));
        return faults;
    }

    /// <summary>A list may be written as one text with commas or as a list of the configuration format.</summary>
    private static string TextOf(IConfigurationSection given) =>
        given.Value ?? string.Join(',', given.GetChildren().Select(child => child.Value));

    private static string Unknown(string key)
    {
        var keys = string.Join(", ", BridgeSettings.All.Select(setting => setting.Key));
        return $"{BridgeOptions.Section}:{key} is no setting of the bridge; allowed are {keys}.";
    }
}
