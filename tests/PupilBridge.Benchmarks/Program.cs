using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using PupilBridge.Benchmarks;

// In process: the project's strict build settings are not meant for generated benchmark projects.
// What they write goes to tests/.out, where nothing is under version control.
var config = DefaultConfig
    .Instance.AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance))
    .WithArtifactsPath(Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../../../.out/benchmarks")));
BenchmarkSwitcher.FromAssembly(typeof(CodecBenchmarks).Assembly).Run(args, config);
