using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary>What starts the service must not read the model of FHIR, which takes seconds: no reading may wait for it.</summary>
public sealed class LazyStartTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task The_running_service_has_not_loaded_FHIR()
    {
        using var service = Executable.Start("serve", "--data", folder.At("data"), "--port", folder.At("no-port"));
        await service.Says($"process {service.Id}");

        var loaded = await File.ReadAllTextAsync($"/proc/{service.Id}/maps");

        Assert.Contains("PupilBridge.Clinic.dll", loaded, StringComparison.Ordinal);
        Assert.DoesNotContain("Hl7.Fhir", loaded, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nor_has_the_web_API_loaded_it_before_somebody_asks_for_such_an_export()
    {
        using var service = Executable.Start(
            new Dictionary<string, string?> { ["PUPILBRIDGE_WEB__ENABLED"] = "true", ["PUPILBRIDGE_WEB__PORT"] = "0" },
            ["serve", "--data", folder.At("data"), "--port", folder.At("no-port")]
        );
        await service.Says("The console is at");
        var address = (await File.ReadAllTextAsync(Path.Combine(folder.At("data"), "console.url"))).Trim();
        using var client = new HttpClient { BaseAddress = new Uri(address) };

        // The document names the exports, so that all of them have been made.
        var document = await client.GetStringAsync("/api/v1/openapi.json");
        var loaded = await File.ReadAllTextAsync($"/proc/{service.Id}/maps");

        Assert.Contains("/exports/fhir-transaction", document, StringComparison.Ordinal);
        Assert.Contains("PupilBridge.Exchange.dll", loaded, StringComparison.Ordinal);
        Assert.DoesNotContain("Hl7.Fhir", loaded, StringComparison.Ordinal);
    }
}
