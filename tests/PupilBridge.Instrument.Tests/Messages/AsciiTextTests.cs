using CsCheck;
using PupilBridge.Instrument.Tests.Wire;

namespace PupilBridge.Instrument.Tests.Messages;

public class AsciiTextTests
{
    [Fact]
    public void It_holds_what_it_was_given() =>
        Gens.Text(0, 40)
            .Sample(text =>
            {
                var held = AsciiText.From(text);
                Assert.Equal(text, held.ToString());
                Assert.Equal(text.Length, held.Length);
                Assert.Equal(AsciiText.From(text), held);
            });

    [Fact]
    public void The_default_is_the_empty_text() => Assert.Equal(default, AsciiText.From(""));

    [Theory]
    [InlineData("a,b")]
    [InlineData("a*b")]
    [InlineData("a\nb")]
    [InlineData("µm")]
    [InlineData("12345678901234567890123456789012345678901")]
    public void What_has_no_place_on_a_line_is_refused(string text) =>
        Assert.Throws<ArgumentException>(() => AsciiText.From(text));

    [Fact]
    public void Reading_another_member_than_the_lines_own_is_a_mistake_of_the_program()
    {
        var line = new InstrumentLine(new VersionRange(1, 2));
        Assert.Throws<InvalidOperationException>(() => line.Event);
        Assert.Throws<InvalidOperationException>(() => line.Held);
    }
}
