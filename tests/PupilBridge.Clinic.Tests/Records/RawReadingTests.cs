using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Records;

public sealed class RawReadingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_size_leads_to_the_instruments_own_line()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth();

        var record = (await clinic.Records.ShowRecordAsync(exam, default))!;
        var size = record.Exam.Sizes.First(size => size.Eye == "OS");
        var raw = (await clinic.Records.ShowRawAsync(size.Sequence, default))!;

        var line = Assert.IsType<InstrumentReported>(clinic.House.Journal[(int)size.Sequence - 1]).RawLine;
        Assert.Equal(line, raw.RawLine);
        Assert.Equal("instrument-reported", raw.Kind);
        Assert.Equal("Instrument QA-0001: temporal edge of OS (left) marked at 9100 µm.", raw.Words);
        Assert.Contains(KeyValuePair.Create("serial", "QA-0001"), raw.Fields);
        Assert.Contains(KeyValuePair.Create("raw line", line), raw.Fields);
    }

    [Fact]
    public async Task What_a_lamp_meter_read_has_words()
    {
        clinic.House.Add(clinic.Instrument.LampOutput(Eye.Right, 203_450));
        var raw = (await clinic.Records.ShowRawAsync(clinic.House.Journal.Count, default))!;
        Assert.Equal("Instrument QA-0001: lamp of OD (right) measured at 203.45 lx.", raw.Words);
    }

    [Fact]
    public async Task Every_entry_of_a_day_has_words_and_fields()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "dim"));
        clinic.MeasureBoth();
        clinic.House.Add(clinic.Instrument.DirectBlock());
        await clinic.EnterAsync(clinic.Judging(exam, "direct OD 3"));
        clinic.House.Add(clinic.Instrument.SwitchOff());

        for (var sequence = 1; sequence <= clinic.House.Journal.Count; sequence++)
        {
            var raw = (await clinic.Records.ShowRawAsync(sequence, default))!;
            Assert.Equal(sequence, raw.Sequence);
            Assert.EndsWith(".", raw.Words, StringComparison.Ordinal);
            Assert.NotEmpty(raw.Fields);
            Assert.All(
                raw.Fields,
                field => Assert.DoesNotContain("PupilBridge", field.Value, StringComparison.Ordinal)
            );
        }

        Assert.Equal(
            "MK, exam 3: direct OD 3.",
            (await clinic.Records.ShowRawAsync(clinic.House.Journal.Count - 1, default))!.Words
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(4711)]
    public async Task Where_no_entry_stands_there_is_none(long sequence) =>
        Assert.Null(await clinic.Records.ShowRawAsync(sequence, default));

    public void Dispose() => clinic.Dispose();
}
