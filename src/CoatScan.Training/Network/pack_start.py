"""Takes the packaged ResNet18 apart for learn_network.py: pack_start.py RESNET18.onnx START.npz

Every convolution in file order with the normalization that follows it. Needs the Python packages onnx and numpy.
"""
import sys

import numpy as np
import onnx
from onnx import numpy_helper

graph = onnx.load(sys.argv[1]).graph
weights = {t.name: numpy_helper.to_array(t) for t in graph.initializer}
norm_after = {n.input[0]: n for n in graph.node if n.op_type == "BatchNormalization"}
arrays = {}
for at, node in enumerate(n for n in graph.node if n.op_type == "Conv"):
    norm = norm_after[node.output[0]]
    arrays[f"{at}_weight"] = weights[node.input[1]].astype(np.float16)
    for name, source in zip(("scale", "shift", "mean", "variance"), norm.input[1:]):
        arrays[f"{at}_{name}"] = weights[source].flatten()
np.savez(sys.argv[2], **arrays)
