"""Learns the panel network on rendered views; see README.md in this folder.

Usage: learn_network.py START.npz VIEWS_FOLDER HELD_OUT_FOLDER SHIFTED_FOLDER REAL.npz OUT_FOLDER [MINUTES]

START.npz: weights of the packaged ResNet18 by the parameter names of its ONNX file. The folders are written by the
trainer's `views` command. REAL.npz: labelled real views to report on (JPEG bytes, lengths n, labels y, groups g);
they are never trained on.
"""
import copy
import io
import sys
import time

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F
from PIL import Image

CLASSES = ["sound", "round_spots", "rings", "domes", "craters", "nibs", "wavy_texture", "runs", "wrinkles",
           "crack_network", "scratches", "chips", "film_loss", "rust", "dulling", "not_a_panel"]
SIDE, MASK = 448, 56
BEGIN = time.time()
DEVICE = "cuda" if torch.cuda.is_available() else "cpu"


def say(*words):
    print(f"[{time.time() - BEGIN:5.0f}s]", *words, flush=True)


# ---------------------------------------------------------------- network

class Block(nn.Module):
    """Two 3 x 3 convolutions beside a shortcut."""

    def __init__(self, inside, outside, stride):
        super().__init__()
        self.stride = stride
        self.conv1 = nn.Conv2d(inside, outside, 3, stride, 0 if stride == 2 else 1, bias=False)
        self.bn1 = nn.BatchNorm2d(outside)
        self.conv2 = nn.Conv2d(outside, outside, 3, 1, 1, bias=False)
        self.bn2 = nn.BatchNorm2d(outside)
        self.short = None
        if stride == 2 or inside != outside:
            self.short = nn.Sequential(nn.Conv2d(inside, outside, 1, stride, 0, bias=False), nn.BatchNorm2d(outside))

    def forward(self, x):
        # The starting network was learned with padding on the left and top only where it halves the picture.
        y = F.pad(x, PAD2) if self.stride == 2 else x
        y = F.relu(self.bn1(self.conv1(y)))
        y = self.bn2(self.conv2(y))
        return F.relu(y + (x if self.short is None else self.short(x)))


PAD2 = (1, 0, 1, 0)


class Body(nn.Module):
    def __init__(self, blocks=8):
        super().__init__()
        self.conv = nn.Conv2d(3, 64, 7, 2, 0, bias=False)
        self.bn = nn.BatchNorm2d(64)
        plan = [(64, 64, 1), (64, 64, 1), (64, 128, 2), (128, 128, 1), (128, 256, 2), (256, 256, 1), (256, 512, 2), (512, 512, 1), (512, 512, 1)]
        self.blocks = nn.ModuleList(Block(*p) for p in plan[:blocks])
        self.register_buffer("mean", torch.tensor([103.06262, 115.902885, 123.15163]).view(1, 3, 1, 1))
        self.mix = False

    def forward(self, rgb):
        x = F.pad(rgb.flip(1) - self.mean, (3, 2, 3, 2))
        x = F.relu(self.bn(self.conv(x)))
        x = F.max_pool2d(F.pad(x, (1, 0, 1, 0)), 3, 2)
        for at, block in enumerate(self.blocks):
            if self.mix and self.training and at in (0, 2, 4):
                x = mix_style(x)
            x = block(x)
        return x


def mix_style(x):
    """Swaps contrast and level of feature channels between pictures, so that no class is known by its rendering style."""
    if torch.rand(1).item() > 0.5:
        return x
    with torch.no_grad():
        level, spread = x.mean((2, 3), keepdim=True), x.std((2, 3), keepdim=True) + 1e-3
        other = torch.randperm(len(x), device=x.device)
        share = torch.distributions.Beta(0.3, 0.3).sample((len(x), 1, 1, 1)).to(x)
    x = (x - level) / spread
    return x * (share * spread + (1 - share) * spread[other]) + share * level + (1 - share) * level[other]


class PanelNet(nn.Module):
    def __init__(self, blocks=8):
        super().__init__()
        self.body = Body(blocks)
        self.photo = nn.Linear(1024, len(CLASSES))
        self.cells = nn.Conv2d(512, len(CLASSES), 1)
        self.drop = nn.Dropout(0.3)

    def forward(self, rgb):
        map_ = self.body(rgb)
        mean, peak = map_.mean((2, 3)), F.avg_pool2d(map_, 2, 1).amax((2, 3))
        return mean, peak, self.photo(self.drop(torch.cat([mean, peak], 1))), self.cells(map_)


def start(net, path):
    """Copies the packaged weights: layers lie in the order of use, but a shortcut may stand before what it bypasses."""
    z = np.load(path)
    stored = list(range(len(z.files) // 5))
    layers = [(net.body.conv, net.body.bn)]
    for block in net.body.blocks:
        layers += [(block.conv1, block.bn1), (block.conv2, block.bn2)]
        if block.short is not None:
            layers.append((block.short[0], block.short[1]))
    for conv, norm in layers:
        at = next(i for i in stored if z[f"{i}_weight"].shape == tuple(conv.weight.shape))
        stored.remove(at)
        for target, name in ((conv.weight, "weight"), (norm.weight, "scale"), (norm.bias, "shift"),
                             (norm.running_mean, "mean"), (norm.running_var, "variance")):
            target.data.copy_(torch.tensor(z[f"{at}_{name}"].astype(np.float32)))


# ---------------------------------------------------------------- data

def read(folder):
    rows = [line.strip().split(",") for line in open(f"{folder}/index.csv")]
    pictures = np.fromfile(f"{folder}/views.bin", np.uint8)
    count = min(len(rows), len(pictures) // (SIDE * SIDE * 4))
    masks = np.fromfile(f"{folder}/masks.bin", np.uint8)[: count * MASK * MASK]
    labels = torch.tensor([CLASSES.index(r[0]) for r in rows[:count]])
    return (torch.from_numpy(pictures[: count * SIDE * SIDE * 4].reshape(count, SIDE, SIDE, 4))[..., :3],
            torch.from_numpy(masks.reshape(count, MASK, MASK)), labels)


def read_real(path):
    z = np.load(path)
    ends = np.cumsum(z["n"])
    pictures = [np.asarray(Image.open(io.BytesIO(z["buf"][e - n:e].tobytes()))) for n, e in zip(z["n"], ends)]
    return torch.from_numpy(np.stack(pictures)), torch.tensor([CLASSES.index(c) for c in z["y"]]), z["g"]


def augment(x, mask):
    """Other crops, turns, light, color, focus, noise: x in 0..1."""
    n = len(x)
    u = lambda low, high, *s: torch.rand(n, *s, device=x.device) * (high - low) + low
    some = lambda p, *s: (torch.rand(n, *s, device=x.device) < p).float()
    turn = u(-0.25, 0.25) * some(0.5) + torch.randint(0, 4, (n,), device=x.device) * (np.pi / 2) * some(0.6)
    zoom, squeeze = torch.exp(u(np.log(0.5), np.log(1.12))), torch.exp(u(-0.25, 0.25))
    flip = torch.sign(torch.rand(n, device=x.device) - 0.5)
    room = (1 - zoom).clamp(min=0)
    c, s = torch.cos(turn), torch.sin(turn)
    frame = torch.stack([torch.stack([c * zoom * squeeze * flip, -s * zoom, u(-1, 1) * room], 1),
                         torch.stack([s * zoom * flip, c * zoom / squeeze, u(-1, 1) * room], 1)], 1)
    size = int(np.random.choice([384, 416, 448]))
    x = F.grid_sample(x, F.affine_grid(frame, (n, 3, size, size), align_corners=False), padding_mode="reflection", align_corners=False)
    mask = F.grid_sample(mask, F.affine_grid(frame, (n, 1, MASK, MASK), align_corners=False), padding_mode="reflection", align_corners=False)
    x = x.clamp(1e-4, 1) ** torch.exp(u(-0.5, 0.5, 1, 1, 1))
    x = x * torch.exp(u(-0.12, 0.12, 3, 1, 1)) * torch.exp(u(-0.35, 0.25, 1, 1, 1))
    level = x.mean((1, 2, 3), keepdim=True)
    x = (x - level) * torch.exp(u(-0.5, 0.5, 1, 1, 1)) + level
    gray = x.mean(1, keepdim=True)
    changed = some(0.7, 1, 1, 1)
    x = gray + (x - gray) * (u(0, 1.5, 1, 1, 1) * changed + 1 - changed)
    yy, xx = torch.meshgrid(*[torch.linspace(-1, 1, size, device=x.device)] * 2, indexing="ij")
    x = x * (1 + some(0.4, 1, 1, 1) * (u(-0.4, 0.4, 1, 1, 1) * xx + u(-0.4, 0.4, 1, 1, 1) * yy)).clamp(min=0.1)
    draw = torch.rand(1).item()
    if draw < 0.3:
        share = float(np.random.choice([0.75, 0.6, 0.45, 0.35]))
        x = F.interpolate(F.interpolate(x, scale_factor=share, mode="bilinear", antialias=True), (size, size), mode="bilinear")
    elif draw < 0.45:
        x = F.avg_pool2d(F.pad(x, [1] * 4, mode="reflect"), 3, 1)
    if torch.rand(1).item() < 0.4:
        x = x + (0.2 + torch.rand(1).item()) * (x - F.avg_pool2d(F.pad(x, [1] * 4, mode="reflect"), 3, 1))
    x = x + torch.randn_like(x) * u(0, 0.05, 1, 1, 1) * some(0.6, 1, 1, 1)
    return x.clamp(0, 1), mask


def mix_spectra(x):
    """Gives a picture part of the amplitudes of another one and keeps its phases: other grain and contrast, same shapes."""
    spectrum = torch.fft.rfft2(x)
    other = torch.randperm(len(x), device=x.device)
    share = torch.rand(len(x), 1, 1, 1, device=x.device) * 0.6 * (torch.rand(len(x), 1, 1, 1, device=x.device) < 0.5)
    amplitude = spectrum.abs()
    mixed = amplitude * (1 - share) + amplitude[other] * share
    mixed[..., 0, 0] = amplitude[..., 0, 0]
    return torch.fft.irfft2(mixed * torch.exp(1j * spectrum.angle()), s=x.shape[2:]).clamp(0, 1)


# ---------------------------------------------------------------- learning

def learn(net, data, minutes, epochs, rate, batch=96, seed=0, smoothing=0.05):
    torch.manual_seed(seed)
    np.random.seed(seed)
    pictures, masks, labels = data
    net = net.to(DEVICE, memory_format=torch.channels_last)
    body = [p for p in net.body.parameters() if p.requires_grad]
    heads = [*net.photo.parameters(), *net.cells.parameters()]
    steps = max(2, epochs * (len(labels) // batch))
    optimizer = torch.optim.AdamW([dict(params=body, lr=rate), dict(params=heads, lr=2e-3)], weight_decay=0.03)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimizer, [rate, 2e-3], total_steps=steps + 1, pct_start=0.15)
    average = copy.deepcopy(net).eval()
    until, done = time.time() + minutes * 60, 0
    for epoch in range(epochs):
        order = torch.randperm(len(labels), device=labels.device)
        for at in range(0, len(order) - batch + 1, batch):
            net.train()
            for module in net.modules():
                if isinstance(module, nn.BatchNorm2d):
                    module.eval()
            pick = order[at:at + batch]
            x = pictures[pick].permute(0, 3, 1, 2).float() / 255
            m = masks[pick][:, None].float() / 255
            y = labels[pick]
            x, m = augment(x, m)
            x = mix_spectra(x)
            with torch.autocast(DEVICE, dtype=torch.bfloat16):
                _, _, photo, cells = net(x * 255)
            photo, cells = photo.float(), cells.float()
            share = F.adaptive_avg_pool2d(m, cells.shape[2:])[:, 0]
            peak = F.max_pool2d(share[:, None], 2, 1).flatten(1).amax(1)
            fault = (y > 0) & (y < len(CLASSES) - 1)
            y = torch.where(fault & (peak < 0.01), torch.zeros_like(y), y)
            unsure = fault & (peak >= 0.01) & (peak < 0.03)
            target = torch.where((share > 0.05) | (y == len(CLASSES) - 1)[:, None, None], y[:, None, None], torch.zeros_like(y)[:, None, None])
            skip = (share > 0.005) & (share <= 0.05)
            dense = (F.cross_entropy(cells, target, reduction="none") * (~skip) * (1 + 2.0 * (target > 0))).mean()
            whole = (F.cross_entropy(photo, y, reduction="none", label_smoothing=smoothing) * (~unsure)).mean()
            loss = whole + 0.6 * dense
            optimizer.zero_grad()
            loss.backward()
            optimizer.step()
            schedule.step()
            done += 1
            keep = min(0.995, done / (done + 20))
            with torch.no_grad():
                for a, b in zip(average.state_dict().values(), net.state_dict().values()):
                    a.lerp_(b, 1 - keep) if a.is_floating_point() else a.copy_(b)
            if time.time() > until:
                say("  out of time")
                return average
        say(f"  epoch {epoch + 1} loss {loss.item():.3f}")
        report(average, f"  after epoch {epoch + 1}", short=True)
    return average


REPORT = {}


@torch.no_grad()
def scores(net, pictures):
    net.eval()
    photo, cells = [], []
    for at in range(0, len(pictures), 128):
        x = pictures[at:at + 128].to(DEVICE).permute(0, 3, 1, 2).float()
        with torch.autocast(DEVICE, dtype=torch.bfloat16):
            _, _, p, c = net(x)
        photo.append(p.float().softmax(1).cpu())
        cells.append(c.float().softmax(1).flatten(2).topk(4, 2)[0].mean(2).cpu())
    return torch.cat(photo).numpy(), torch.cat(cells).numpy()


def macro(truth, guess, labels):
    out = []
    for c in labels:
        hit = ((truth == c) & (guess == c)).sum()
        out.append(2 * hit / max(1, (truth == c).sum() + (guess == c).sum()))
    return float(np.mean(out)), [round(float(v), 2) for v in out]


def report(net, name, short=False):
    lines = {}
    for key in ("held", "shifted", "real"):
        pictures, labels = REPORT[key]
        p, _ = scores(net, pictures)
        y = labels.numpy()
        if key != "real":
            f, each = macro(y, p.argmax(1), range(len(CLASSES)))
            lines[key] = f"{key} {f:.3f}" + ("" if short else f" {each}")
            continue
        known = sorted(set(y.tolist()))
        guess = p.argmax(1)
        only = np.array(known)[p[:, known].argmax(1)]
        sure = p.max(1) >= np.median(p.max(1))
        f, each = macro(y, guess, known)
        lines[key] = (f"real {f:.3f} acc {np.mean(guess == y):.2f} surer half {np.mean((guess == y)[sure]):.2f} "
                      f"among the five {macro(y, only, known)[0]:.3f} {each}")
        if not short:
            for c in known:
                lines[f"{CLASSES[c]}"] = f"\n      {CLASSES[c]}: " + str({CLASSES[k]: int(v) for k, v in zip(*np.unique(guess[y == c], return_counts=True))})
    say(name, " ".join(lines.values()))
    return f


def soup(nets):
    """Mean of the weights of networks that started alike."""
    mixed = copy.deepcopy(nets[0])
    states = [n.state_dict() for n in nets]
    with torch.no_grad():
        for key, value in mixed.state_dict().items():
            if value.is_floating_point():
                value.copy_(sum(s[key].float() for s in states) / len(states))
    return mixed.eval()


# ---------------------------------------------------------------- export

def export(net, path):
    """ONNX with 8-bit weights: each output channel of a convolution has its own step. The reader folds them at loading."""
    import onnx
    from onnx import TensorProto, helper, numpy_helper
    net = copy.deepcopy(net).float().cpu().eval().to(memory_format=torch.contiguous_format)
    torch.onnx.export(net, torch.zeros(1, 3, SIDE, SIDE), path, input_names=["pixels"],
                      output_names=["mean", "peak", "photo", "cells"], opset_version=13, dynamo=False)
    model = onnx.load(path)
    graph = model.graph
    used = {n.input[1] for n in graph.node if n.op_type in ("Conv", "Gemm")}
    front, kept = [], []
    for tensor in graph.initializer:
        w = numpy_helper.to_array(tensor)
        if tensor.name not in used or w.size < 4096:
            kept.append(tensor)
            continue
        step = np.maximum(np.abs(w).reshape(len(w), -1).max(1), 1e-12) / 127
        shape = (len(w),) + (1,) * (w.ndim - 1)
        small = np.clip(np.round(w / step.reshape(shape)), -127, 127).astype(np.int8)
        kept += [numpy_helper.from_array(small, tensor.name + "_q"),
                 numpy_helper.from_array(step.reshape(shape).astype(np.float32), tensor.name + "_step")]
        front += [helper.make_node("Cast", [tensor.name + "_q"], [tensor.name + "_f"], to=TensorProto.FLOAT),
                  helper.make_node("Mul", [tensor.name + "_f", tensor.name + "_step"], [tensor.name])]
    nodes = front + list(graph.node)
    del graph.initializer[:], graph.node[:]
    graph.initializer.extend(kept)
    graph.node.extend(nodes)
    onnx.checker.check_model(model)
    onnx.save(model, path)


def check(net, path):
    import onnxruntime
    session = onnxruntime.InferenceSession(path, providers=["CPUExecutionProvider"])
    pictures, labels = REPORT["real"]
    got = np.concatenate([session.run(["photo"], {"pixels": p.permute(2, 0, 1)[None].float().numpy()})[0] for p in pictures])
    truth = labels.numpy()
    want, _ = scores(net, pictures)
    say(path, f"real macro-F1 in 8 bit {macro(truth, got.argmax(1), sorted(set(truth.tolist())))[0]:.3f}, same answer as the "
              f"learned net on {np.mean(got.argmax(1) == want.argmax(1)):.2f}")


def main():
    begin, views, held, shifted, real, out = sys.argv[1:7]
    minutes = float(sys.argv[7]) if len(sys.argv) > 7 else 9
    epochs = int(sys.argv[8]) if len(sys.argv) > 8 else 6
    data = [t.to(DEVICE) for t in read(views)]
    for key, folder in (("held", held), ("shifted", shifted)):
        pictures, _, labels = read(folder)
        REPORT[key] = (pictures, labels)
    pictures, labels, _ = read_real(real)
    REPORT["real"] = (pictures, labels)
    say(f"{len(data[2])} rendered views for learning, {len(REPORT['held'][1])} held out, {len(labels)} real")
    nets = {}
    for seed in (1, 2, 3):
        net = PanelNet(7)
        start(net, begin)
        net.body.mix = True
        say(f"run {seed}")
        nets[f"run-{seed}"] = learn(net, data, minutes / 3, epochs, 1e-4, seed=seed)
        report(nets[f"run-{seed}"], f"run {seed}")
    nets["mean"] = soup(list(nets.values()))
    report(nets["mean"], "mean of the runs")
    for name in nets:
        path = f"{out}/{name}.onnx"
        export(nets[name], path)
        check(nets[name], path)


if __name__ == "__main__":
    main()
