using System.Text.Json;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Configuration.EnvironmentVariables;
using Microsoft.Extensions.Configuration.Json;
using Microsoft.Extensions.Configuration.Memory;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.FileProviders.Physical;

namespace PupilBridge.Configuration;

/// <summary>
/// Where settings come from, weakest first: the machine's file, the data folder's file, environment variables
/// (<c>PUPILBRIDGE_</c>, with two underscores for a colon), and <c>--set KEY=VALUE</c> on the command line.
/// </summary>
internal static class ConfigurationSources
{
    /// <summary>The name of a settings file in the data folder.</summary>
    public const string FileName = "pupilbridge.json";

    /// <summary>What the names of environment variables with settings begin with.</summary>
    public const string Prefix = "PUPILBRIDGE_";

    /// <summary>The machine's own settings file.</summary>
    public static string MachineFile { get; } =
        OperatingSystem.IsWindows()
            ? Path.Combine(
                Environment.GetFolderPath(Environment.SpecialFolder.CommonApplicationData),
                "pupilbridge",
                FileName
            )
            : "/etc/pupilbridge/" + FileName;

    /// <summary>Gathers all settings; a file that cannot be read is reported and left out.</summary>
    /// <param name="files">Settings files, weakest first; one that does not exist is no fault.</param>
    /// <param name="set">Keys and values from the command line.</param>
    /// <param name="faults">Where faults of whole files are added.</param>
    /// <returns>The settings.</returns>
    public static IConfigurationRoot Gather(
        IEnumerable<string> files,
        IReadOnlyDictionary<string, string?> set,
        ICollection<ConfigurationFault> faults
    )
    {
        var builder = new ConfigurationBuilder();
        foreach (var file in files.Where(File.Exists))
        {
            if (FaultOf(file) is { } fault)
            {
                faults.Add(fault);
            }
            else
            {
                builder.Add(
                    new JsonConfigurationSource
                    {
                        // Folders whose name begins with a dot are left out by the usual file provider.
                        FileProvider = new PhysicalFileProvider(Path.GetDirectoryName(file)!, ExclusionFilters.None),
                        Path = Path.GetFileName(file),
                    }
                );
            }
        }

        return builder.AddEnvironmentVariables(Prefix).AddInMemoryCollection(set).Build();
    }

    /// <summary>A person's words for where a value came from.</summary>
    /// <param name="configuration">The settings.</param>
    /// <param name="key">The whole key.</param>
    /// <returns>For example <c>environment variable PUPILBRIDGE_BRIDGE__BAUD</c>.</returns>
    public static string Of(IConfigurationRoot configuration, string key)
    {
        foreach (var provider in configuration.Providers.Reverse())
        {
            if (provider.TryGet(key, out _) || provider.GetChildKeys([], key).Any())
            {
                return provider switch
                {
                    EnvironmentVariablesConfigurationProvider =>
                        $"environment variable {Prefix}{key.Replace(":", "__", StringComparison.Ordinal).ToUpperInvariant()}",
                    MemoryConfigurationProvider => "the command line",
                    JsonConfigurationProvider
                    {
                        Source: { FileProvider: PhysicalFileProvider files, Path: { } name }
                    } => Path.Combine(files.Root, name),
                    _ => "the settings",
                };
            }
        }

        return "the default";
    }

    private static ConfigurationFault? FaultOf(string file)
    {
        try
        {
            using var document = JsonDocument.Parse(
                File.ReadAllBytes(file),
                new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true }
            );
            return document.RootElement.ValueKind == JsonValueKind.Object
                ? null
                : new ConfigurationFault(file, $"{file} must hold one JSON object.", file);
        }
        catch (JsonException fault)
        {
            var line = (fault.LineNumber ?? 0) + 1;
            return new ConfigurationFault(
                file,
                $"{file}, line {line}: not valid JSON; everything in this file was left out.",
                $"{file}, line {line}"
            );
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return new ConfigurationFault(file, $"{file} cannot be read: {fault.Message}", file);
        }
    }
}
