using Microsoft.Extensions.Options;

namespace PupilBridge.Worker.Options;

/// <summary>Checks all values at once, so that a person mends a configuration in one go.</summary>
public sealed class BridgeOptionsValidator : IValidateOptions<BridgeOptions>
{
    /// <inheritdoc/>
    public ValidateOptionsResult Validate(string? name, BridgeOptions options)
    {
        var faults = Check(options);
        return faults.Count == 0 ? ValidateOptionsResult.Success : ValidateOptionsResult.Fail(faults);
    }

    /// <summary>All that is wrong with the options.</summary>
    /// <param name="options">The options.</param>
    /// <returns>One sentence for each fault, with key, value and what is allowed; empty if all is well.</returns>
    public static IReadOnlyList<string> Check(BridgeOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var faults = BridgeSettings
            .All.Where(setting => !setting.IsValid(options))
            .Select(setting => setting.Fault(setting.Write(options)))
            .ToList();
        if (options.ReconnectFirst > options.ReconnectCap)
        {
            var first = BridgeSettings.All.Single(setting => setting.Key == nameof(BridgeOptions.ReconnectFirst));
            var cap = BridgeSettings.All.Single(setting => setting.Key == nameof(BridgeOptions.ReconnectCap));
            faults.Add(
                $"{first.FullKey} is '{first.Write(options)}'; allowed is at most {cap.FullKey}, which is '{cap.Write(options)}'."
            );
        }

        return faults;
    }
}
