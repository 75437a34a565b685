using PupilBridge.CommandLine;
using PupilBridge.Conformance.Steps;
using PupilBridge.Verbs.Instruments;

namespace PupilBridge.Tests.Verbs;

/// <summary>What a person at the instrument is asked, and how the answer is taken.</summary>
public sealed class PersonAtInstrumentTests : IDisposable
{
    private readonly StringWriter error = new();

    [Fact]
    public void Each_task_has_words_of_its_own_and_is_thanked_for()
    {
        var asked = new HashSet<string>(StringComparer.Ordinal);
        foreach (var task in Enum.GetValues<HandTask>())
        {
            error.GetStringBuilder().Clear();
            Assert.True(Person('y').Ask(task));
            Assert.True(asked.Add(error.ToString()), $"{task} is asked in the words of another.");
        }

        error.GetStringBuilder().Clear();
        Person('y').Thank(HandTask.SwingLens);
        Assert.Contains("seen", error.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData('y', true)]
    [InlineData('n', false)]
    [InlineData('x', false)]
    public void What_did_not_show_was_done_only_if_the_person_says_yes(char key, bool was)
    {
        Assert.Equal(was, Person(key).WasDone(HandTask.SwingLens));
        Assert.Contains("swing the viewing lens", error.ToString(), StringComparison.Ordinal);
        Assert.EndsWith((was ? "yes" : "no") + Environment.NewLine, error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_memory_is_filled_only_if_the_firmware_can() => Assert.False(Person('n').Ask(HandTask.FillMemory));

    public void Dispose() => error.Dispose();

    private PersonAtInstrument Person(char key) =>
        new(
            new Terminal
            {
                Out = TextWriter.Null,
                Error = error,
                IsInteractive = true,
                ReadKey = () =>
                    new ConsoleKeyInfo(
                        key,
                        Enum.Parse<ConsoleKey>(key.ToString().ToUpperInvariant()),
                        false,
                        false,
                        false
                    ),
            }
        );
}
