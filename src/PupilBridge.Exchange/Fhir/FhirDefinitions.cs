using System.Text;

namespace PupilBridge.Exchange.Fhir;

/// <summary>Our profiles, code systems and code map, as they lie in docs/fhir and in this assembly.</summary>
public static class FhirDefinitions
{
    private const string Folder = "fhir/";

    /// <summary>The names of all files.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. typeof(FhirDefinitions)
            .Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
            .Select(name => name[Folder.Length..])
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The text of a file.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <exception cref="ArgumentException">There is no such file.</exception>
    public static string Text(string name)
    {
        using var stream =
            typeof(FhirDefinitions).Assembly.GetManifestResourceStream(Folder + name)
            ?? throw new ArgumentException($"There is no definition {name}.", nameof(name));
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    /// <summary>The text of a profile or code system, with the addresses that a clinic has set.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <param name="settings">The settings.</param>
    /// <exception cref="ArgumentException">There is no such file.</exception>
    public static string Text(string name, FhirSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Text(name).Replace(FhirSettings.ExampleDefinitions, settings.Definitions, StringComparison.Ordinal);
    }
}
