using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Hosting;

/// <summary>What <c>serve</c> says about the console: the first administrator's code, and why it is not served.</summary>
public sealed class ConsoleStartTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task The_code_is_said_while_there_is_nobody_and_is_another_one_after_each_start()
    {
        var first = await CodeAsync();
        var second = await CodeAsync();
        Assert.Matches("^[A-Z]{4}-[A-Z]{4}-[A-Z]{4}$", first);
        Assert.Matches("^[A-Z]{4}-[A-Z]{4}-[A-Z]{4}$", second);
        Assert.NotEqual(first, second);

        await AddSomebodyAsync();
        using var service = Serve();
        await service.Says("The console is at");
        Assert.DoesNotContain("this code", service.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_tls_it_is_not_open_to_the_network_and_readings_go_on()
    {
        using var service = Serve("--set", "Web:Address=0.0.0.0");
        await service.Says("Set Web:Certificate");
        Assert.DoesNotContain("The console is at", service.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Free that port", service.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Invoked.Run("exams", "list", "--data", folder.At("data"))).Code);
        service.Signal("TERM");
        Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
    }

    private async Task<string> CodeAsync()
    {
        using var service = Serve();
        await service.Says("which works once: ");
        service.Signal("TERM");
        var said = (await service.Ended()).Error;
        var start = said.IndexOf("which works once: ", StringComparison.Ordinal) + "which works once: ".Length;
        return said[start..].Split('\n')[0].Trim();
    }

    private async Task AddSomebodyAsync()
    {
        using var output = new StringWriter();
        var terminal = new Terminal
        {
            Out = output,
            Error = output,
            In = new StringReader("three quiet cranes\n"),
            IsInteractive = false,
        };
        var runner = new Runner(CommandTree.Build(), terminal, new Surroundings(TimeProvider.System, _ => null));
        string[] words = ["people", "add", "AB", "--role", "administrator", "--data", folder.At("data")];
        Assert.Equal(0, await runner.RunAsync(words, CancellationToken.None));
    }

    private Executable Serve(params string[] more) =>
        Executable.Start([
            "serve",
            "--data",
            folder.At("data"),
            "--port",
            folder.At("no-port"),
            "--set",
            "Web:Enabled=true",
            "--set",
            "Web:Port=0",
            .. more,
        ]);
}
