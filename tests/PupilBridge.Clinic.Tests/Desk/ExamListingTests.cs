using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Desk;

public sealed class ExamListingTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task An_exam_is_listed_at_once_before_the_log_holds_it()
    {
        var exam = await clinic.OpenAsync();

        var listed = Assert.Single(
            (await clinic.Desk.ListExamsAsync(new ExamListRequest { Status = "open" }, default)).Exams
        );

        Assert.Equal(
            (exam, "Q-1001", "open", Support.Clinic.Serial),
            (listed.Exam, listed.Patient, listed.Status, listed.Instrument)
        );
        Assert.Equal("MK", listed.Examiner);
    }

    [Fact]
    public async Task An_open_exam_is_listed_as_it_is_and_not_as_the_log_has_it()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.WriteLog();
        clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
        await clinic.EnterAsync(clinic.Light(exam, "bright"));
        clinic.MeasureBoth();

        var listed = Assert.Single((await clinic.Desk.ListExamsAsync(new ExamListRequest(), default)).Exams);

        Assert.Contains("4.0", listed.ChartLine, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_exam_that_was_made_ready_is_listed_so_while_the_log_still_has_it_open()
    {
        var first = await clinic.OpenAsync("Q-1001");
        clinic.House.WriteLog();
        await clinic.EnterAsync(clinic.Ready(first));
        var second = await clinic.OpenAsync("Q-1002");

        Assert.Equal([second], await AllAsync(new ExamListRequest { Status = "open" }));
        Assert.Equal([first], await AllAsync(new ExamListRequest { Status = "ready-for-review" }));
        Assert.Equal([second, first], await AllAsync(new ExamListRequest()));

        clinic.House.WriteLog();

        Assert.Equal([second], await AllAsync(new ExamListRequest { Status = "open" }));
        Assert.Equal([first], await AllAsync(new ExamListRequest { Status = "ready-for-review" }));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(7)]
    [InlineData(50)]
    public async Task Pages_together_are_the_list_with_the_open_exam_in_its_place(int limit)
    {
        var opened = new List<long>();
        for (var n = 0; n < 12; n++)
        {
            opened.Add(await clinic.OpenAsync($"Q-{1001 + (n % 3)}"));
            clinic.House.Add(clinic.Instrument.Dial(InstrumentMode.Measure));
            if (n == 8)
            {
                clinic.House.WriteLog();
            }
        }

        // The last one is open; the log lacks two that ended meanwhile, and has a third as it was.
        clinic.MeasureBoth();
        opened.Reverse();

        Assert.Equal(opened, await AllAsync(new ExamListRequest { Limit = limit }));
        Assert.Equal(opened[0], (await AllAsync(new ExamListRequest { Limit = limit, Patient = "Q-1003" }))[0]);
        Assert.Equal(4, (await AllAsync(new ExamListRequest { Limit = limit, Patient = "Q-1003" })).Count);
    }

    [Theory]
    [InlineData(0, null)]
    [InlineData(501, null)]
    [InlineData(10, "yesterday")]
    public async Task A_request_for_what_is_none_is_explained(int limit, string? after)
    {
        var request = new ExamListRequest { Limit = limit, After = after };

        var problem = await Assert.ThrowsAsync<EntryProblemException>(() =>
            clinic.Desk.ListExamsAsync(request, default)
        );

        Assert.NotEmpty(problem.Message);
    }

    [Fact]
    public async Task Instruments_are_listed_with_their_line_and_open_exam()
    {
        var exam = await clinic.OpenAsync();
        clinic.House.Add(
            new LineChanged
            {
                At = UtcTime.From(clinic.Instrument.Now),
                Serial = new SerialNumber(Support.Clinic.Serial),
                PortName = "memory:1",
                State = LineState.Stalled,
                Reason = "nothing came",
            }
        );
        clinic.House.IsLive = false;

        var list = await clinic.Desk.ListInstrumentsAsync(default);

        var one = Assert.Single(list.Instruments);
        Assert.False(list.IsLive);
        Assert.Equal(("Quay-A", "1.0", "stalled", exam), (one.Model, one.Firmware, one.Line, one.OpenExam!.Value));
    }

    public void Dispose() => clinic.Dispose();

    private async Task<List<long>> AllAsync(ExamListRequest request)
    {
        var all = new List<long>();
        string? after = null;
        do
        {
            var page = await clinic.Desk.ListExamsAsync(request with { After = after }, default);
            Assert.True(page.Exams.Count <= request.Limit);
            all.AddRange(page.Exams.Select(exam => exam.Exam));
            after = page.Next;
        } while (after is not null);

        return all;
    }
}
