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
}
