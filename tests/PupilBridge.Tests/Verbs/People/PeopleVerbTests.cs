using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.People;

/// <summary>The commands about people, by themselves and beside a running service.</summary>
public sealed class PeopleVerbTests : IDisposable
{
    private const string Good = "three quiet cranes";
    private readonly TemporaryFolder folder = new();

    private string File => folder.At("data", "access.json");

    [Fact]
    public async Task Somebody_is_added_with_a_password_from_standard_input_and_listed()
    {
        var added = await Run(Good, "people", "add", "MK", "--role", "examiner", "--role", "administrator");
        Assert.Equal(ExitCode.Done, added.Code);
        Assert.Contains("MK can sign in", added.Out, StringComparison.Ordinal);
        var listed = await Run("", "people", "list", "--json");
        using var document = JsonDocument.Parse(listed.Out);
        var person = Assert.Single(document.RootElement.EnumerateArray());
        Assert.Equal("MK", person.GetProperty("who").GetString());
        Assert.Equal(
            ["examiner", "administrator"],
            person.GetProperty("roles").EnumerateArray().Select(role => role.GetString())
        );
        Assert.DoesNotContain("assword", listed.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("cranes", await System.IO.File.ReadAllTextAsync(File), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", 2)]
    [InlineData("short", 4)]
    [InlineData("password123", 4)]
    public async Task A_password_that_cannot_be_one_adds_nobody(string password, int code)
    {
        var outcome = await Run(password, "people", "add", "MK", "--role", "examiner");
        Assert.Equal(code, (int)outcome.Code);
        Assert.NotEmpty(outcome.Error);
        Assert.Empty((await Run("", "people", "list")).Out);
    }

    [Theory]
    [InlineData("people", "add", "MK")]
    [InlineData("people", "add", "MK", "--role", "doctor")]
    [InlineData("people", "add", "MK", "--role", "examiner", "--password", Good)]
    [InlineData("people", "password", "MK", Good)]
    public async Task A_password_is_never_an_argument_and_a_role_is_one_that_exists(params string[] words) =>
        Assert.Equal(ExitCode.Usage, (await Run(Good, words)).Code);

    [Theory]
    [InlineData("password")]
    [InlineData("disable")]
    [InlineData("enable")]
    public async Task A_name_that_nobody_has_is_not_found(string verb) =>
        Assert.Equal(ExitCode.NotFound, (await Run(Good, "people", verb, "ZZ")).Code);

    [Fact]
    public async Task The_last_administrator_is_not_switched_off()
    {
        await Run(Good, "people", "add", "AB", "--role", "administrator");
        var refused = await Run("", "people", "disable", "AB");
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains("last administrator", refused.Error, StringComparison.Ordinal);
        await Run(Good, "people", "add", "MK", "--role", "administrator");
        Assert.Equal(ExitCode.Done, (await Run("", "people", "disable", "ab")).Code);
        Assert.Contains("switched off", (await Run("", "people", "list")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_file_is_named_before_a_password_is_asked_for()
    {
        Directory.CreateDirectory(folder.At("data"));
        await System.IO.File.WriteAllTextAsync(File, "{");
        foreach (var words in new string[][] { ["list"], ["add", "MK", "--role", "examiner"], ["password", "MK"] })
        {
            var outcome = await Run("", ["people", .. words]);
            Assert.Equal(ExitCode.Storage, outcome.Code);
            Assert.Contains(File, outcome.Error, StringComparison.Ordinal);
        }

        Assert.Equal("{", await System.IO.File.ReadAllTextAsync(File));
    }

    [Fact]
    public async Task At_a_terminal_it_is_typed_twice_without_being_shown()
    {
        var typed = new Queue<ConsoleKeyInfo>(Keys("three quietx\b cranes\n").Concat(Keys("three quiet cranes\n")));
        var outcome = await Run(typed, "people", "add", "MK", "--role", "examiner");
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Empty(typed);
        Assert.DoesNotContain("cranes", outcome.Out + outcome.Error, StringComparison.Ordinal);

        typed = new Queue<ConsoleKeyInfo>(Keys("four grey pilots\n").Concat(Keys("four grey pilot\n")));
        Assert.Equal(ExitCode.Refused, (await Run(typed, "people", "password", "MK")).Code);
    }

    [Fact]
    public async Task Beside_a_running_service_the_change_is_journalled_by_the_service()
    {
        using var service = Executable.Start(
            "serve",
            "--data",
            folder.At("data"),
            "--port",
            folder.At("no-port"),
            "--set",
            "Web:Enabled=false"
        );
        await service.Says("PupilBridge runs");
        Assert.Equal(ExitCode.Done, (await Run(Good, "people", "add", "MK", "--role", "examiner")).Code);
        var journal = "";
        await Eventually.Is(async () =>
        {
            journal = (await Run("", "journal", "list")).Out;
            return journal.Contains("\"added\"", StringComparison.Ordinal);
        });
        Assert.Contains("(command line)", journal, StringComparison.Ordinal);
        Assert.DoesNotContain("cranes", journal, StringComparison.Ordinal);
        service.Signal("TERM");
        Assert.Equal(ExitCode.Done, (await service.Ended()).Code);
    }

    public void Dispose() => folder.Dispose();

    private Task<Outcome> Run(string input, params string[] words) => Run(new StringReader(input), null, words);

    private Task<Outcome> Run(Queue<ConsoleKeyInfo> keys, params string[] words) =>
        Run(TextReader.Null, keys.Dequeue, words);

    private async Task<Outcome> Run(TextReader input, Func<ConsoleKeyInfo>? readKey, string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var terminal = new Terminal
        {
            Out = output,
            Error = error,
            In = input,
            ReadKey = readKey,
            IsInteractive = false,
        };
        var runner = new Runner(CommandTree.Build(), terminal, new Surroundings(TimeProvider.System, _ => null));
        var code = await runner.RunAsync([.. words, "--data", folder.At("data")], CancellationToken.None);
        return new Outcome((ExitCode)code, output.ToString(), error.ToString());
    }

    private static IEnumerable<ConsoleKeyInfo> Keys(string text) =>
        text.Select(c =>
            c switch
            {
                '\n' => new ConsoleKeyInfo('\r', ConsoleKey.Enter, false, false, false),
                '\b' => new ConsoleKeyInfo('\b', ConsoleKey.Backspace, false, false, false),
                _ => new ConsoleKeyInfo(c, ConsoleKey.A, false, false, false),
            }
        );
}
