using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests;

public class ExamLogStoreTests
{
    [Fact]
    public void A_new_exam_log_is_empty_and_stands_at_zero()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);

        Assert.Equal(0, store.LastApplied);
        Assert.True(store.Carry.IsEmpty);
        Assert.Empty(store.ListExams(new ExamQuery()).Items);
        Assert.Empty(store.ListPatients().Items);
        Assert.Empty(store.ListInstruments());
        Assert.Equal(0, store.Verify().Documents);
    }

    [Fact]
    public void What_was_applied_is_found_whole_after_opening_again()
    {
        using var data = new DataFolder();
        var exam = Samples.Exam(8);
        using (var store = ExamLogStore.Open(data.Path))
        {
            store.Apply(
                12,
                new ExamLogChanges
                {
                    Exams = [exam],
                    Patients = [Samples.Patient(8)],
                    Instruments = [Samples.Instrument(1)],
                    LookUps =
                    [
                        new StoredLookUp
                        {
                            List = "examiners",
                            Key = "MK",
                            Text = "",
                        },
                    ],
                    Carry = new byte[] { 1, 2, 3 },
                }
            );
        }

        using var again = ExamLogStore.Open(data.Path);
        var found = again.FindExam(exam.Id)!;
        Assert.Equal(exam with { Body = found.Body }, found);
        Assert.Equal(exam.Body.ToArray(), found.Body.ToArray());
        Assert.Equal(12, again.LastApplied);
        Assert.Equal([1, 2, 3], again.Carry.ToArray());
        Assert.Single(again.ListExams(new ExamQuery()).Items);
        Assert.Equal(Samples.Patient(8).Body.ToArray(), again.FindPatient("Q-1009")!.Body.ToArray());
        Assert.Equal("QA-0001", Assert.Single(again.ListInstruments()).Id);
        Assert.Equal("MK", Assert.Single(again.ListLookUps("examiners")).Key);
        Assert.Empty(again.ListLookUps("examiner"));
        Assert.Null(again.FindExam("E-999999"));
    }

    [Fact]
    public void A_look_up_list_is_read_whole_and_its_lines_are_found_by_key()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        StoredLookUp Line(string list, int n) =>
            new()
            {
                List = list,
                Key = $"{n:D4}",
                Text = $"line {n}",
            };
        var lines = Enumerable.Range(0, 1203).Select(n => Line("people", n)).Append(Line("people's", 1)).ToList();
        store.Apply(1, new ExamLogChanges { LookUps = lines });

        Assert.Equal(lines.SkipLast(1), store.ListLookUps("people"));
        Assert.Equal(Line("people", 77), store.FindLookUp("people", "0077"));
        Assert.Null(store.FindLookUp("people", "77"));
    }

    [Fact]
    public void Lines_whose_keys_begin_alike_are_read_backwards_a_page_at_a_time()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        StoredLookUp Line(string list, string beginning, int n) =>
            new()
            {
                List = list,
                Key = $"{beginning}{n:D4}",
                Text = $"{beginning} {n}",
            };
        // Neighbours on all sides: shorter, longer and differently written beginnings, other lists.
        string[] beginnings = ["A/", "A-1/", "AA/", "a/", "A.B/"];
        var lines = beginnings
            .SelectMany(beginning => Enumerable.Range(0, 25).Select(n => Line("runs", beginning, n)))
            .Append(Line("runs-of-others", "A/", 3))
            .Append(Line("run", "A/", 3))
            .ToArray();
        store.Apply(1, new ExamLogChanges { LookUps = lines });

        foreach (var beginning in beginnings)
        {
            List<StoredLookUp> read = [];
            for (string? before = null; ; before = read[^1].Key)
            {
                var page = store.ListLookUpsBackwards("runs", beginning, before, limit: 10);
                Assert.InRange(page.Count, 0, 10);
                if (page.Count == 0)
                    break;
                read.AddRange(page);
            }

            Assert.Equal(Enumerable.Range(0, 25).Reverse().Select(n => Line("runs", beginning, n)), read);
        }

        Assert.Equal("A/0024", Assert.Single(store.ListLookUpsBackwards("runs", "A/", null, 1)).Key);
        Assert.Empty(store.ListLookUpsBackwards("runs", "A/", "A/0000", 10));
        Assert.Empty(store.ListLookUpsBackwards("runs", "B/", null, 10));
        Assert.Equal(125, store.ListLookUpsBackwards("runs", "", null, 200).Count);
        Assert.Throws<ArgumentOutOfRangeException>(() => store.ListLookUpsBackwards("runs", "A/", null, 0));
    }

    [Fact]
    public void Times_are_kept_to_the_millisecond_and_come_back_in_utc()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        var opened = new DateTimeOffset(2026, 3, 2, 9, 0, 0, 123, TimeSpan.FromHours(2)).AddTicks(4567);
        store.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1) with { OpenedAt = opened }] });

        var found = store.FindExam(Samples.Exam(1).Id)!.OpenedAt;

        Assert.Equal(TimeSpan.Zero, found.Offset);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 7, 0, 0, 123, TimeSpan.Zero), found);
    }

    [Fact]
    public void Applying_the_same_stretch_again_changes_nothing()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        var stream = Samples.Stream(seed: 3, stretches: 40).ToList();
        stream.ForEach(stretch => Assert.True(store.Apply(stretch.UpTo, stretch.Changes)));
        var digest = store.Verify();

        stream.ForEach(stretch => Assert.False(store.Apply(stretch.UpTo, stretch.Changes)));

        Assert.Equal(digest, store.Verify());
        Assert.Equal(stream[^1].UpTo, store.LastApplied);
    }

    [Fact]
    public void The_same_documents_in_fewer_and_larger_stretches_have_the_same_digest()
    {
        using var small = new DataFolder();
        using var large = new DataFolder();
        using var one = ExamLogStore.Open(small.Path);
        using var other = ExamLogStore.Open(large.Path, new ExamLogOptions { CheckpointBytes = 64 * 1024 });
        var exams = Enumerable.Range(0, 60).Select(n => Samples.Exam(n)).ToList();
        for (var i = 0; i < exams.Count; i++)
        {
            one.Apply(i + 1, new ExamLogChanges { Exams = [exams[i]] });
        }

        other.Apply(60, new ExamLogChanges { Exams = exams.AsEnumerable().Reverse().ToList() });

        Assert.Equal(one.Verify(), other.Verify());
    }

    [Theory]
    [InlineData("")]
    [InlineData("E\n1")]
    public void An_exam_without_a_usable_id_is_refused_and_nothing_is_written(string id)
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        var changes = new ExamLogChanges { Exams = [Samples.Exam(1), Samples.Exam(2) with { Id = id }] };

        Assert.Throws<ArgumentException>(() => store.Apply(5, changes));

        Assert.Equal(0, store.LastApplied);
        Assert.Empty(store.ListExams(new ExamQuery()).Items);
        Assert.False(store.IsBroken);
    }

    [Fact]
    public void A_document_that_stands_twice_in_one_stretch_is_refused()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);

        var refusal = Assert.Throws<ArgumentException>(() =>
            store.Apply(5, new ExamLogChanges { Exams = [Samples.Exam(1), Samples.Exam(1, version: 2)] })
        );

        Assert.Contains(Samples.Exam(1).Id, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Ids_that_differ_only_in_case_are_two_documents()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);

        store.Apply(
            1,
            new ExamLogChanges { Patients = [Samples.Patient(0), Samples.Patient(0) with { Id = "q-1001" }] }
        );

        Assert.Equal(["Q-1001", "q-1001"], store.ListPatients().Items.Select(patient => patient.Id));
    }

    [Fact]
    public void The_engines_log_stays_within_its_limit()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path, new ExamLogOptions { CheckpointBytes = 256 * 1024 });
        foreach (var (upTo, changes) in Samples.Stream(seed: 5, stretches: 100))
        {
            store.Apply(upTo, changes);
            Assert.True(new FileInfo(data.LogFile).Length < 512 * 1024);
        }
    }

    [Fact]
    public void When_idle_the_engines_log_is_emptied_once()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path);
        store.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });

        Assert.True(store.CheckpointIfNeeded());
        Assert.Equal(0, new FileInfo(data.LogFile).Length);
        Assert.False(store.CheckpointIfNeeded());
    }

    [Fact]
    public async Task Reading_goes_on_while_another_thread_applies_and_checkpoints()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path, new ExamLogOptions { CheckpointBytes = 128 * 1024 });
        using var done = new CancellationTokenSource();
        var reading = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var reader = Task.Run(() =>
        {
            var pages = 0;
            while (!done.IsCancellationRequested)
            {
                var page = store.ListExams(new ExamQuery { Limit = 20 });
                Assert.True(page.Items.Count <= 20);
                pages++;
                reading.TrySetResult();
            }

            return pages;
        });

        // On a busy machine the reader may get its turn late; what it shall prove needs both at once.
        await reading.Task.WaitAsync(TimeSpan.FromSeconds(60));
        foreach (var (upTo, changes) in Samples.Stream(seed: 9, stretches: 300))
        {
            store.Apply(upTo, changes);
        }

        await done.CancelAsync();
        Assert.True(await reader > 1, "no page was read while the other thread wrote");
        store.Verify();
    }
}
